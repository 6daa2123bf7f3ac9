#include "shells/cli/files.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>
#include <utility>

#include "desk/write_json.h"
#include "store/book_file.h"
#include "store/file.h"

namespace fallwright::cli {

int refuse(const Finding& found, const Output& output) {
    if (output.json) std::printf("%s\n", error_json(found).c_str());
    std::fprintf(stderr, "fallwright: %s\n", one_line(found).c_str());
    return 2;
}

Result<std::string> read_file(const std::string& path) {
    return store::read_all(store::posix_files(), path);
}

Result<std::shared_ptr<const Book>> open_book(const std::string& path) {
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

namespace {

// The errno of what went wrong, 0 where all is written.
int write_bytes(const std::string& path, std::string_view bytes) {
    errno = 0;
    std::FILE* file = std::fopen(path.c_str(), "wb");
    if (file == nullptr) return errno;
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
    const int error = written ? 0 : errno;
    const bool closed = std::fclose(file) == 0;
    if (!written) return error == 0 ? EIO : error;
    return closed ? 0 : errno;
}

Finding not_written(const std::string& path, int error) {
    return finding(Code::BadFile, {path}, std::string("the file cannot be written: ") + std::strerror(error));
}

}  // namespace

std::optional<Finding> write_file(const std::string& path, std::string_view bytes) {
    struct stat there {};
    const bool other = stat(path.c_str(), &there) == 0 && !S_ISREG(there.st_mode);
    const std::string part = other ? path : path + "." + std::to_string(getpid()) + ".part";
    if (const int error = write_bytes(part, bytes); error != 0) {
        if (!other) std::remove(part.c_str());
        return not_written(path, error);
    }
    if (other || std::rename(part.c_str(), path.c_str()) == 0) return std::nullopt;
    const int error = errno;
    std::remove(part.c_str());
    return not_written(path, error);
}

void say_progress(std::size_t lines, const char* stage) {
    constexpr std::size_t long_work = 30000;
    if (lines < long_work || isatty(STDERR_FILENO) == 0) return;
    std::fprintf(stderr, "fallwright: %s, %zu thousand lines\n", stage, lines / 1000);
}

}  // namespace fallwright::cli
