#include <cstdio>
#include <utility>

#include "base/json_out.h"
#include "base/sha256.h"
#include "evaluation/evaluation.h"
#include "exchange/native/workbook/workbook.h"
#include "shells/paper/verbs.h"
#include "store/book_file.h"
#include "store/file.h"

namespace fallwright::paper {

namespace {

std::string name_of(const std::string& path) {
    return path.substr(path.find_last_of('/') + 1);
}

}  // namespace

int export_workbook(const std::string& path, const std::string& to, bool json) {
    Result<std::string> bytes = store::read_all(store::posix_files(), path);
    if (!bytes) return refuse(bytes.finding(), json);
    workbook::Wanted wanted = {name_of(path), sha256_hex(*bytes), FALLWRIGHT_VERSION};
    Result<std::unique_ptr<Book>> book = read_book(std::move(*bytes));
    if (!book) {
        Finding found = book.finding();
        found.about.insert(found.about.begin(), path);
        return refuse(found, json);
    }
    (*book)->forget_text();
    const Evaluation evaluation = evaluate(std::shared_ptr<const Book>(std::move(*book)));
    if (const std::optional<Finding> trouble = workbook::write(evaluation, wanted, to))
        return refuse(*trouble, json);
    if (json) {
        JsonOut out;
        out.begin_object().text("written", to).end_object();
        std::printf("%s\n", out.take().c_str());
    } else {
        std::printf("written: %s\n", to.c_str());
    }
    return 0;
}

}  // namespace fallwright::paper
