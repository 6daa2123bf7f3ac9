#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/sha256.h"
#include "desk/report_answer.h"
#include "sheet/render.h"
#include "shells/cli/beside.h"
#include "shells/cli/files.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"
#include "store/stamp.h"

namespace fallwright::cli {

namespace {

std::string file_name(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? path : path.substr(slash + 1);
}

// PDF wants libraries of its own: fallwright-paper makes it, of the same book and moment.
std::vector<std::string> paper_words(const ReportArguments& arguments, const Output& output) {
    std::vector<std::string> words = {"report",  arguments.book,  "--pdf",     arguments.pdf,
                                      "--paper", arguments.paper, "--made-at", arguments.made_at};
    if (arguments.one_page) words.emplace_back("--one-page");
    if (output.json) words.emplace_back("--json");
    return words;
}

nlohmann::json options_of(const ReportArguments& arguments, const std::string& fingerprint) {
    return {{"form", arguments.one_page ? "one-page" : "full"}, {"paper", arguments.paper},
            {"as", arguments.text ? "text" : "html"},           {"fingerprint", fingerprint},
            {"book_name", file_name(arguments.book)},           {"made_at", arguments.made_at}};
}

void print(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
}

// Writes what was asked for and says where; nothing, or why it could not be written.
std::optional<Finding> write_files(const ReportArguments& arguments, const ReportAnswer& answer,
                                   const Output& output) {
    if (!arguments.html.empty()) {
        if (auto fault = write_file(arguments.html, sheet::html_of(answer.document))) return fault;
        if (!output.json) print("The record is in " + arguments.html + "\n");
    }
    return std::nullopt;
}

}  // namespace

int report_book(const ReportArguments& given, const Output& output) {
    ReportArguments arguments = given;
    if (arguments.made_at.empty()) arguments.made_at = store::now_rfc3339();
    if (!arguments.pdf.empty()) {
        const int code = run_beside("paper", paper_words(arguments, output));
        const bool all = arguments.html.empty() && !arguments.text && !output.json && !output.strict;
        if (code != 0 || all) return code;
    }
    Result<std::string> bytes = read_file(arguments.book);
    if (!bytes) return refuse(bytes.finding(), output);
    const nlohmann::json object = options_of(arguments, sha256_hex(*bytes));
    std::vector<BookChange> changes;
    const Result<std::shared_ptr<const Book>> book = book_of(std::move(*bytes), arguments.book, &changes);
    if (!book) return refuse(book.finding(), output);
    desk::Options options(object);
    const Result<ReportAnswer> answer = report_answer(*book, std::move(changes), options);
    if (!answer) return refuse(answer.finding(), output);
    if (const auto fault = write_files(arguments, *answer, output)) return refuse(*fault, output);
    if (output.json) {
        print(report_json(*answer) + "\n");
    } else if (arguments.text || (arguments.html.empty() && arguments.pdf.empty())) {
        print(sheet::text_of(answer->document));
    }
    return output.strict && something_outside(*answer->evaluation) ? 1 : 0;
}

}  // namespace fallwright::cli
