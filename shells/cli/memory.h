// memory: how the program holds the system's memory. It reads one book, answers and ends.
#pragma once

#include <cstddef>

namespace fallwright::cli {

// Memory given back to the system would only be asked for again: none is. Before anything of size is
// allocated.
void keep_memory();

// The heap's next so many bytes in pages of 2 MB, where the system has them; page by page of 4 KB they cost a
// tenth of the time of a long book. Of a large page that is touched all counts as used, so the caller names
// what will surely be needed. Where that does not fill a page, or there is no such system call, nothing is
// done.
void expect_memory(std::size_t bytes);

}  // namespace fallwright::cli
