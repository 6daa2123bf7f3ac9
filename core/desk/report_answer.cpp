#include "desk/report_answer.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "base/json_out.h"
#include "book/time.h"
#include "desk/asked.h"
#include "desk/write_json.h"
#include "sheet/render.h"

namespace fallwright {

namespace {

using desk::bad_request;

// One of two words, the first where the option is absent; whether it is the second.
bool second_of(desk::Options& options, const char* name, const char* first, const char* second) {
    const std::optional<std::string> word = options.text(name);
    if (!word || *word == first) return false;
    if (*word != second)
        options.refuse(bad_request({name}, std::string(name) + " is " + first + " or " + second,
                                   std::string("write ") + first + " or " + second));
    return true;
}

bool is_fingerprint(const std::string& text) {
    constexpr std::size_t digits = 64;
    return text.size() == digits && std::all_of(text.begin(), text.end(), [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
           });
}

record::Wanted read_wanted(desk::Options& options) {
    record::Wanted wanted;
    wanted.version = FALLWRIGHT_VERSION;
    if (second_of(options, "form", "full", "one-page")) wanted.length = record::Length::OnePage;
    if (second_of(options, "paper", "A4", "Letter")) wanted.paper = sheet::Paper::Letter;
    wanted.fingerprint = options.text("fingerprint").value_or("");
    wanted.book_name = options.text("book_name").value_or("");
    wanted.made_at = options.text("made_at").value_or("");
    if (!wanted.fingerprint.empty() && !is_fingerprint(wanted.fingerprint))
        options.refuse(bad_request({"fingerprint"}, "a fingerprint is 64 hexadecimal digits, lower case",
                                   "take the SHA-256 of the book's bytes"));
    if (wanted.made_at.empty()) return wanted;
    const std::optional<Instant> at = parse_time(wanted.made_at);
    if (!at)
        options.refuse(
            bad_request({"made_at"}, "made_at is no RFC 3339 time", "write it like 2026-05-04T08:30:00Z"));
    else
        wanted.made_at = format_time(*at);
    return wanted;
}

}  // namespace

Result<ReportAnswer> report_answer(const std::shared_ptr<const Book>& book, std::vector<BookChange> changes,
                                   desk::Options& options) {
    ReportAnswer answer;
    answer.wanted = read_wanted(options);
    answer.wanted.changes = std::move(changes);
    answer.html = !second_of(options, "as", "html", "text");
    if (options.fault()) return *options.fault();
    answer.evaluation = std::make_shared<const Evaluation>(evaluate(book, Seek::Suspects));
    answer.document = record::report_of(*answer.evaluation, answer.wanted);
    return answer;
}

std::string report_json(const ReportAnswer& answer) {
    JsonOut out;
    out.begin_object()
        .integer("version", format_version)
        .text("unit", unit_word(answer.evaluation->book->unit))
        .text("title", answer.document.title)
        .text("form", answer.wanted.length == record::Length::Full ? "full" : "one-page")
        .text("paper", answer.wanted.paper == sheet::Paper::A4 ? "A4" : "Letter");
    if (answer.html) {
        out.text("html", sheet::html_of(answer.document));
    } else {
        out.text("text", sheet::text_of(answer.document));
    }
    write_findings(out, answer.evaluation->findings);
    out.end_object();
    return out.take();
}

}  // namespace fallwright
