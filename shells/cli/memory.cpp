#include "shells/cli/memory.h"

#ifdef __GLIBC__
#include <malloc.h>
#include <sys/mman.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#endif

namespace fallwright::cli {

#ifdef __GLIBC__

namespace {

constexpr int heap_most = 1 << 30;  // what is larger has pages of its own, given back when it is freed

}  // namespace

void keep_memory() {
    mallopt(M_MMAP_THRESHOLD, heap_most);
    mallopt(M_TRIM_THRESHOLD, heap_most);
    mallopt(M_TOP_PAD, 4 << 20);
}

void expect_memory(std::size_t bytes) {
    constexpr std::uintptr_t page = std::uintptr_t{2} << 20;
    if (bytes < 2 * page) return;
    bytes = std::min(bytes, heap_most - page);
    // Where it lies now the next allocations will: nothing is given back.
    void* const room = std::malloc(bytes);
    if (room == nullptr) return;
    const auto begin = reinterpret_cast<std::uintptr_t>(room);
    const std::uintptr_t first = (begin + page - 1) / page * page;
    const std::uintptr_t last = (begin + bytes) / page * page;
    // Refused, the small pages stay: nothing to tell.
    if (first < last) madvise(static_cast<char*>(room) + (first - begin), last - first, MADV_HUGEPAGE);
    std::free(room);
}

#else

void keep_memory() {}
void expect_memory(std::size_t) {}

#endif

}  // namespace fallwright::cli
