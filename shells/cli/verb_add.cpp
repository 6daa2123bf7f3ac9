#include <cstdio>
#include <iostream>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "desk/evaluation.h"
#include "shells/cli/entry_text.h"
#include "shells/cli/files.h"
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

// What the book with these lines says about them: all findings that name one of the new entries.
struct Judgement {
    Findings findings;
    std::optional<Finding> refusal;  // the first of them that leaves an entry out
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
    const Figures figures = read_figures(**book);
    for (const Findings* part : {static_cast<const Findings*>(&(*book)->findings), &figures.findings}) {
        for (const Finding& found : *part) {
            for (const Json& entry : entries) {
                const bool about =
                    entry.contains("id") && !found.about.empty() && entry["id"] == found.about.front();
                if (!about) continue;
                judgement.findings.push_back(found);
                const bool refuses = catalogue(found.code).severity == Severity::Error &&
                                     found.code != Code::BadSd && found.code != Code::BadTime;
                if (refuses && !judgement.refusal) judgement.refusal = found;
            }
        }
    }
    return judgement;
}

Result<store::Lines> compose(std::string_view now, const std::string& device, std::vector<Json>& entries,
                             Findings& findings) {
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
    Judgement judgement = judge(now, lines, entries);
    if (judgement.refusal) return *judgement.refusal;
    findings = std::move(judgement.findings);
    return lines;
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
    Findings findings;
    const auto lines_for = [&](std::string_view now) { return compose(now, *device, *entries, findings); };
    const Result<store::Added> added = store::append(
        files, path, begins_book ? store::IfAbsent::Create : store::IfAbsent::Refuse, lines_for);
    if (!added) return refuse(added.finding(), output);
    for (const std::string& line : added->lines)
        std::printf("%s\n", output.json ? line.c_str() : ("added " + line).c_str());
    if (const auto note = store::network_note(files, path)) findings.push_back(*note);
    if (!output.json) std::fputs(findings_text(findings).c_str(), stdout);
    return output.strict && has_error(findings) ? 1 : 0;
}

}  // namespace fallwright::cli
