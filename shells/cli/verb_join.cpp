#include <cstdio>

#include "book/join.h"
#include "shells/cli/files.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"
#include "store/book_file.h"
#include "store/file.h"

namespace fallwright::cli {

int join_files(const std::vector<std::string>& paths, const std::string& out, const Output& output) {
    std::vector<BookText> books;
    for (const std::string& path : paths) {
        Result<std::string> bytes = read_file(path);
        if (!bytes) return refuse(bytes.finding(), output);
        books.push_back({path, std::move(*bytes)});
    }
    const Result<std::string> joined = join_books(books);
    if (!joined) return refuse(joined.finding(), output);
    store::Lines lines;
    for (std::size_t at = 0; at < joined->size();) {
        const std::size_t end = joined->find('\n', at);
        lines.push_back(joined->substr(at, end - at));
        at = end + 1;
    }
    const Result<store::Added> added = store::create_new(store::posix_files(), out, lines);
    if (!added) return refuse(added.finding(), output);
    if (output.json) {
        std::printf("{\"version\":1,\"entries\":%zu}\n", added->lines.size());
    } else {
        std::printf("%zu lines of %zu books joined in %s\n", added->lines.size(), paths.size(), out.c_str());
    }
    return 0;
}

}  // namespace fallwright::cli
