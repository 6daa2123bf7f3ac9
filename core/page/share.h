// share: the way a run takes, and its misclosures shared out along it.
//
// Inside page only.
#pragma once

#include <vector>

#include "page/page.h"

namespace fallwright {

// Where a run stands while it is booked: the set-ups so far, the sights that carry the level, the distance.
class RunWay {
  public:
    // rows: the most that the page can have.
    RunWay(const Where& where, std::size_t rows) : where_(where) { setup_of_row_.reserve(rows); }

    // The back sight that begins the next set-up, and the fore sight that leaves it.
    void enter(std::uint32_t back);
    void leave(std::uint32_t fore);
    // The next row of the page belongs to the present set-up.
    void add_row() { setup_of_row_.push_back(setups); }
    // The run closes at its last row.
    void note(const Closure& closure);
    // Metres from the start through this reading of the present set-up; absent where a sight has no distance.
    Maybe length_with(std::uint32_t reading) const;

    // Fills `adjusted` of the page's rows, in proportion to distance where every sight has one and it is
    // wanted, else to set-ups.
    void share_out(bool by_distance, Page& page) const;

    std::int32_t setups = 0;
    std::vector<WaySight> sights;

  private:
    struct Node {
        std::int32_t setup;
        Decimal misclosure;
    };
    double distance(std::uint32_t reading) const;

    const Where& where_;
    std::vector<std::int32_t> setup_of_row_;  // counted from 1; 0 for the start
    std::vector<Node> nodes_;                 // in order of set-ups, one a set-up
    std::vector<double> left_at_{0};          // metres where each set-up is left; NaN where not known
    double length_ = 0;                       // through the last back sight
};

}  // namespace fallwright
