#include <algorithm>
#include <cstdio>
#include <iostream>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "evaluation/evaluation.h"
#include "shells/cli/entry_text.h"
#include "shells/cli/files.h"
#include "shells/cli/people_suspects.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"
#include "store/book_file.h"
#include "store/device.h"
#include "store/file.h"
#include "store/stamp.h"

namespace fallwright::cli {

namespace {

using Json = nlohmann::json;

Result<std::vector<Json>> entries_of(const std::vector<std::string>& words) {
    std::vector<Json> entries;
    if (words.size() == 1 && words.front() == "-") {
        for (std::string line; std::getline(std::cin, line);) {
            if (line.find_first_not_of(" \t\r") == std::string::npos) continue;
            Result<Json> entry = entry_from_json(line);
            if (!entry) return entry.finding();
            entries.push_back(std::move(*entry));
        }
        return entries;
    }
    Result<Json> entry = entry_from_words(words);
    if (!entry) return entry.finding();
    entries.push_back(std::move(*entry));
    return entries;
}

// Id, time and who, where the person gave none. A book's own line has none of them.
void stamp(Json& entry, store::Ids& ids) {
    if (entry.contains("kind") && entry["kind"] == "book") {
        if (!entry.contains("format")) entry["format"] = "fallwright";
        if (!entry.contains("version")) entry["version"] = 1;
        return;
    }
    if (!entry.contains("id")) entry["id"] = ids.next();
    if (!entry.contains("at")) entry["at"] = store::now_rfc3339();
    if (!entry.contains("by") && !store::user_name().empty()) entry["by"] = store::user_name();
}

// The catalogue's cure is for an entry that stands in a book; this one did not get there.
Finding not_added(Finding found) {
    if (found.code == Code::MissingField) found.cure = "say it again with that field";
    if (found.code == Code::WrongType || found.code == Code::OutOfRange)
        found.cure = "say it again, corrected";
    found.message += ": nothing was added";
    return found;
}

// What the book with these lines says about them: all findings that name one of the new entries.
struct Judgement {
    Findings findings;
    std::optional<Finding> refusal;  // the first of them that leaves an entry out
    std::shared_ptr<const Book> book;
};

Judgement judge(std::string_view now, const store::Lines& lines, const std::vector<Json>& entries) {
    std::string text(now);
    if (!text.empty() && text.back() != '\n') text += '\n';
    text += store::with_breaks(lines);
    Judgement judgement;
    Result<std::unique_ptr<Book>> book = read_book(text);
    if (!book) {
        judgement.refusal = book.finding();
        return judgement;
    }
    judgement.book = std::move(*book);
    const Figures figures = read_figures(*judgement.book);
    for (const Findings* part : {&judgement.book->findings, &figures.findings}) {
        for (const Finding& found : *part) {
            for (const Json& entry : entries) {
                const bool about =
                    entry.contains("id") && !found.about.empty() && entry["id"] == found.about.front();
                if (!about) continue;
                judgement.findings.push_back(found);
                const bool refuses = catalogue(found.code).severity == Severity::Error &&
                                     found.code != Code::BadSd && found.code != Code::BadTime;
                if (refuses && !judgement.refusal) judgement.refusal = not_added(found);
            }
        }
    }
    return judgement;
}

Result<store::Lines> compose(std::string_view now, const std::string& device, std::vector<Json>& entries,
                             Judgement& judgement) {
    store::Ids ids(device, now);
    store::Lines lines;
    for (Json& entry : entries) {
        const bool begins = entry.contains("kind") && entry["kind"] == "book";
        if (begins && (!now.empty() || !lines.empty())) {
            return finding(Code::BadRequest, {"book"}, "the book is begun already",
                           "amend its first line: amend of=#1 'set={...}' why=...");
        }
        stamp(entry, ids);
        lines.push_back(entry.dump());
    }
    judgement = judge(now, lines, entries);
    if (judgement.refusal) return *judgement.refusal;
    return lines;
}

// The first reading of a point, where it is one of the new entries.
bool begins_point(const Book& book, const std::string& point, const std::vector<Json>& entries) {
    for (const Reading& reading : book.readings) {
        if (book.names.text(reading.point) != point) continue;
        const std::string id = book.id_of(reading.entry);
        return std::any_of(entries.begin(), entries.end(),
                           [&id](const Json& entry) { return entry.contains("id") && entry["id"] == id; });
    }
    return false;
}

// Names are asked about once, when the second of the two comes up; levels that no neighbour supports when
// their reading does.
bool asked_now(const Finding& found, const Book& book, const std::vector<Json>& entries) {
    const auto begins = [&](const std::string& point) { return begins_point(book, point, entries); };
    if (found.code == Code::NearNames) return std::any_of(found.about.begin(), found.about.end(), begins);
    if (found.code != Code::NoNeighbour) return false;
    return std::any_of(entries.begin(), entries.end(), [&found](const Json& entry) {
        return entry.contains("id") && entry["id"] == found.about.front();
    });
}

// What the whole book says once a reading is in, and only then: it is on the disk, nobody waits for the lock.
// Books of more readings than a person books in weeks answer with `suspects` only.
std::string judged_live(const Judgement& judgement, const std::vector<Json>& entries, Findings& findings) {
    constexpr std::size_t most_readings = 2000;
    const bool reads = std::any_of(entries.begin(), entries.end(), [](const Json& entry) {
        return entry.contains("kind") && entry["kind"] == "reading";
    });
    if (!reads || judgement.book == nullptr || judgement.book->readings.size() > most_readings) return "";
    const Evaluation evaluation = evaluate(judgement.book, Seek::Suspects);
    for (const Finding& found : evaluation.suspects->findings) {
        if (asked_now(found, *judgement.book, entries)) findings.push_back(found);
    }
    const std::string line = suspect_line(evaluation);
    return line.empty() ? "" : "  " + line + "\n";
}

}  // namespace

int add_entries(const std::string& path, const std::vector<std::string>& words, const Output& output) {
    Result<std::vector<Json>> entries = entries_of(words);
    if (!entries) return refuse(entries.finding(), output);
    const bool begins_book =
        !entries->empty() && entries->front().contains("kind") && entries->front()["kind"] == "book";
    store::Files& files = store::posix_files();
    const Result<std::string> device = store::device_name(files);
    if (!device) return refuse(device.finding(), output);
    Judgement judgement;
    const auto lines_for = [&](std::string_view now) { return compose(now, *device, *entries, judgement); };
    const Result<store::Added> added = store::append(
        files, path, begins_book ? store::IfAbsent::Create : store::IfAbsent::Refuse, lines_for);
    if (!added) return refuse(added.finding(), output);
    for (const std::string& line : added->lines)
        std::printf("%s\n", output.json ? line.c_str() : ("added " + line).c_str());
    Findings& findings = judgement.findings;
    if (const auto note = store::network_note(files, path)) findings.push_back(*note);
    if (!output.json) {
        std::fflush(stdout);
        const std::string live = judged_live(judgement, *entries, findings);
        std::fputs((findings_text(findings) + live).c_str(), stdout);
    }
    return output.strict && has_error(findings) ? 1 : 0;
}

}  // namespace fallwright::cli
