#include "shells/cli/files.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>
#include <utility>

#include "desk/write_json.h"
#include "shells/cli/memory.h"
#include "store/book_file.h"
#include "store/file.h"
#include "store/whole_file.h"

namespace fallwright::cli {

int refuse(const Finding& found, const Output& output) {
    if (output.json) std::printf("%s\n", error_json(found).c_str());
    std::fprintf(stderr, "fallwright: %s\n", one_line(found).c_str());
    return 2;
}

Result<std::string> read_file(const std::string& path) {
    return store::read_all(store::posix_files(), path);
}

namespace {

// What reading and evaluating a book holds at once, in bytes of its text: the books of bench/run come to 7.
void expect_memory_for(const std::string& path) {
    constexpr double of_text = 6.5;
    struct stat found {};
    if (stat(path.c_str(), &found) == 0 && S_ISREG(found.st_mode))
        expect_memory(static_cast<std::size_t>(of_text * static_cast<double>(found.st_size)));
}

}  // namespace

Result<std::shared_ptr<const Book>> open_book(const std::string& path) {
    expect_memory_for(path);
    Result<std::string> bytes = read_file(path);
    if (!bytes) return bytes.finding();
    constexpr std::size_t typical_line = 120;
    say_progress(bytes->size() / typical_line, "reading");
    return book_of(std::move(*bytes), path);
}

Result<std::shared_ptr<const Book>> book_of(std::string bytes, const std::string& path,
                                            std::vector<BookChange>* changes) {
    Result<std::unique_ptr<Book>> book = read_book(std::move(bytes));
    if (!book) {
        Finding found = book.finding();
        found.about.insert(found.about.begin(), path);
        return found;
    }
    if (changes != nullptr) *changes = changes_of(**book);
    (*book)->forget_text();
    return std::shared_ptr<const Book>(std::move(*book));
}

std::optional<Finding> write_file(const std::string& path, std::string_view bytes) {
    return store::write_whole(store::posix_files(), path, bytes);
}

void say_progress(std::size_t lines, const char* stage) {
    constexpr std::size_t long_work = 30000;
    if (lines < long_work || isatty(STDERR_FILENO) == 0) return;
    std::fprintf(stderr, "fallwright: %s, %zu thousand lines\n", stage, lines / 1000);
}

}  // namespace fallwright::cli
