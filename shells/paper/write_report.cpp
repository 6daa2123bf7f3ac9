#include <cstdio>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "base/sha256.h"
#include "desk/report_answer.h"
#include "exchange/native/pdf/pdf.h"
#include "shells/paper/verbs.h"
#include "store/book_file.h"
#include "store/file.h"
#include "store/whole_file.h"

namespace fallwright::paper {

namespace {

nlohmann::json options_of(const ReportArguments& arguments, const std::string& fingerprint) {
    return {{"form", arguments.one_page ? "one-page" : "full"},
            {"paper", arguments.paper},
            {"fingerprint", fingerprint},
            {"book_name", arguments.book.substr(arguments.book.find_last_of('/') + 1)},
            {"made_at", arguments.made_at}};
}

// Who took readings, in order of appearance: "R. Quill, O. Fenn".
std::string readers(const Book& book) {
    std::string names;
    std::set<NameId> said = {no_name};
    for (const Reading& reading : book.readings) {
        const NameId by = book.entries[reading.entry].by;
        if (!said.insert(by).second) continue;
        names += (names.empty() ? "" : ", ") + book.name(by);
    }
    return names;
}

}  // namespace

int write_report(const ReportArguments& arguments, bool json) {
    Result<std::string> bytes = store::read_all(store::posix_files(), arguments.book);
    if (!bytes) return refuse(bytes.finding(), json);
    const nlohmann::json object = options_of(arguments, sha256_hex(*bytes));
    Result<std::unique_ptr<Book>> book = read_book(std::move(*bytes));
    if (!book) {
        Finding found = book.finding();
        found.about.insert(found.about.begin(), arguments.book);
        return refuse(found, json);
    }
    std::vector<BookChange> changes = changes_of(**book);
    (*book)->forget_text();
    const std::shared_ptr<const Book> read = std::move(*book);
    desk::Options options(object);
    const Result<ReportAnswer> answer = report_answer(read, std::move(changes), options);
    if (!answer) return refuse(answer.finding(), json);
    const pdf::Properties properties = {readers(*read), "Fallwright " FALLWRIGHT_VERSION,
                                        answer->wanted.made_at};
    const Result<std::string> made = pdf::pdf_of(answer->document, properties);
    if (!made) return refuse(made.finding(), json);
    if (const auto fault = store::write_whole(store::posix_files(), arguments.to, *made))
        return refuse(*fault, json);
    if (!json) std::printf("The record is in %s\n", arguments.to.c_str());
    return 0;
}

}  // namespace fallwright::paper
