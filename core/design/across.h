// across: how a line's surface rises to its sides, where its crossfall may change along it.
//
// A crossfall is given at chainages as a rise outwards on each side (right positive offsets to the right):
//   rise(ch, off) = off right(ch)        off >= 0
//                 = -off left(ch)        off < 0
// Between two chainages left and right go straight from the one to the other (linear run-on), so that the
// surface there is twisted: a hyperbolic paraboloid, and no plane. Beyond the first and the last it stays as
// there. It turns about the line itself: where a road turns about its edge, the line is that edge. Metres and
// ratios. Source: VC-09, VC-10 (linear run-on), VC-11.
#pragma once

#include <array>
#include <vector>

#include "book/line_entry.h"

namespace fallwright {

class Across {
  public:
    explicit Across(const Crossfall& crossfall);

    // Whether every chainage lies beyond the one before; else there is no rise off the line (NaN).
    bool in_order() const { return in_order_; }
    double rise(double ch, double off) const;

    // Where a side keeps its crossfall, and where it does not (absent). Without a crossfall one, level
    // across; none where not in order. The first begins and the last ends at infinity.
    struct Stretch {
        double from = 0, to = 0;
        Maybe left, right;
    };
    std::vector<Stretch> stretches() const;

    // Where people look: every chainage given where there are several, where a side becomes level, and where
    // both become one plane. By rising chainage.
    std::vector<double> turns() const;

  private:
    std::array<double, 2> at(double ch) const;  // left, right

    std::vector<CrossfallAt> along_;  // never empty
    bool in_order_ = true;
};

}  // namespace fallwright
