#include "base/stable_order.h"

#include <algorithm>
#include <numeric>

namespace fallwright {

std::vector<std::uint32_t> stable_order(std::size_t count,
                                        const std::function<bool(std::uint32_t, std::uint32_t)>& before) {
    std::vector<std::uint32_t> order(count);
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(),
                     [&before](std::uint32_t a, std::uint32_t b) { return before(a, b); });
    return order;
}

}  // namespace fallwright
