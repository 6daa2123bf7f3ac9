// files: what the verbs share of reading books and saying what is wrong.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "book/book.h"
#include "book/change.h"
#include "shells/cli/verbs.h"

namespace fallwright::cli {

// Says the finding in one line on standard error, with --json also as {"error": finding} on standard output;
// exit code 2.
int refuse(const Finding& found, const Output& output);

Result<std::string> read_file(const std::string& path);
// Reads and opens a book; findings are about the path.
Result<std::shared_ptr<const Book>> open_book(const std::string& path);

// The same of bytes already read; findings are about the path. changes: where to put its amendments and
// strikes, null where nobody asks.
Result<std::shared_ptr<const Book>> book_of(std::string bytes, const std::string& path,
                                            std::vector<BookChange>* changes = nullptr);

// Writes a file that can be made again at any time (a drawing, a record, an export), as a whole or not at
// all: nothing, or the finding that says why not.
std::optional<Finding> write_file(const std::string& path, std::string_view bytes);

// A stage of long work, on a terminal only, for books of more than some ten thousand lines.
void say_progress(std::size_t lines, const char* stage);

}  // namespace fallwright::cli
