// stable_order: sorts that leave equals as they stand, all by one merge sort.
//
// std::stable_sort is compiled anew for every type it sorts, 4 KB each in the browser's module, a twelfth of
// it in all. Here one sort of numbers serves: a comparison costs a call, and each item is moved twice. Use
// std::stable_sort where a whole large book is sorted.
#pragma once

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace fallwright {

// The numbers 0 to count - 1 as their items should stand. before(a, b): item a belongs before item b.
std::vector<std::uint32_t> stable_order(std::size_t count,
                                        const std::function<bool(std::uint32_t, std::uint32_t)>& before);

// As std::stable_sort of all items: at most about n log n comparisons. Items need only be movable; `before`
// must be a strict weak order and sees them where they stood when the sort began.
// Fewer than two items cost nothing.
template <class Item, class Before = std::less<>>
void sort_stably(std::vector<Item>& items, Before before = {}) {
    if (items.size() < 2) return;
    const std::vector<std::uint32_t> order = stable_order(
        items.size(), [&](std::uint32_t a, std::uint32_t b) { return before(items[a], items[b]); });
    std::vector<Item> sorted;
    sorted.reserve(items.size());
    for (const std::uint32_t at : order) sorted.push_back(std::move(items[at]));
    items = std::move(sorted);
}

}  // namespace fallwright
