// box_tree: which of many upright rectangles meet a given one. Inside ground only.
//
// The rectangles stand in groups of eight along a space-filling curve through their middles, groups in groups
// of eight, and so on; a search goes down where it meets. Building sorts once; a search costs about the depth
// and what it finds. The order of what is found depends on the rectangles alone.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace fallwright::ground {

struct Box {
    double west = 0, south = 0, east = 0, north = 0;

    bool meets(const Box& other) const {
        return west <= other.east && other.west <= east && south <= other.north && other.south <= north;
    }
    // Grows to hold the other as well.
    void take_in(const Box& other);
};

class BoxTree {
  public:
    explicit BoxTree(std::vector<Box> boxes);

    // Calls each(index) for every one of the boxes that meets this one.
    template <class Each>
    void meeting(const Box& box, Each each) const {
        if (!levels_.empty()) search(levels_.size() - 1, 0, levels_.back().size(), box, each);
    }

  private:
    static constexpr std::size_t group = 8;

    template <class Each>
    void search(std::size_t level, std::size_t from, std::size_t to, const Box& box, Each& each) const {
        for (std::size_t i = from; i < to; ++i) {
            if (!levels_[level][i].meets(box)) continue;
            if (level == 0) {
                each(order_[i]);
            } else {
                const std::size_t below = levels_[level - 1].size();
                search(level - 1, i * group, i * group + group < below ? i * group + group : below, box,
                       each);
            }
        }
    }

    std::vector<std::size_t> order_;        // of the boxes as given
    std::vector<std::vector<Box>> levels_;  // boxes in that order, then groups of them, up to one
};

}  // namespace fallwright::ground
