#include "ground/box_tree.h"

#include <algorithm>
#include <utility>

namespace fallwright::ground {

namespace {

constexpr double steps = 65535;  // of the curve, each way

// The bits of x with a 0 between each and the next.
std::uint32_t spread(std::uint32_t x) {
    x = (x | (x << 8)) & 0x00ff00ffu;
    x = (x | (x << 4)) & 0x0f0f0f0fu;
    x = (x | (x << 2)) & 0x33333333u;
    return (x | (x << 1)) & 0x55555555u;
}

std::uint32_t step_of(double at, double from, double to) {
    return to > from ? static_cast<std::uint32_t>((at - from) / (to - from) * steps) : 0;
}

}  // namespace

void Box::take_in(const Box& other) {
    west = std::min(west, other.west);
    south = std::min(south, other.south);
    east = std::max(east, other.east);
    north = std::max(north, other.north);
}

BoxTree::BoxTree(std::vector<Box> boxes) {
    if (boxes.empty()) return;
    Box all = boxes.front();
    for (const Box& box : boxes) all.take_in(box);
    std::vector<std::pair<std::uint32_t, std::size_t>> keys;
    keys.reserve(boxes.size());
    for (const Box& box : boxes) {
        const std::uint32_t e = step_of((box.west + box.east) / 2, all.west, all.east);
        const std::uint32_t n = step_of((box.south + box.north) / 2, all.south, all.north);
        keys.emplace_back(spread(e) | (spread(n) << 1), keys.size());
    }
    std::sort(keys.begin(), keys.end());
    std::vector<Box> level;
    order_.reserve(boxes.size());
    level.reserve(boxes.size());
    for (const auto& [code, index] : keys) {
        order_.push_back(index);
        level.push_back(boxes[index]);
    }
    levels_.push_back(std::move(level));
    while (levels_.back().size() > 1) {
        const std::vector<Box>& below = levels_.back();
        std::vector<Box> groups;
        for (std::size_t i = 0; i < below.size(); ++i) {
            if (i % group == 0) {
                groups.push_back(below[i]);
            } else {
                groups.back().take_in(below[i]);
            }
        }
        levels_.push_back(std::move(groups));
    }
}

}  // namespace fallwright::ground
