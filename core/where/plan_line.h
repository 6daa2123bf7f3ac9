// plan_line: chainage and offset of a line to easting and northing.
//
// A line with a plan lies on the grid (frame 0); beyond its ends the end segments go on; a vertex belongs to
// the segment before it. A line without plan has a frame of its own: easting is the offset to the right,
// northing the chainage, so that bearings count from its chainage. Offsets are to the right. Metres
// throughout.
#pragma once

#include <cstdint>
#include <vector>

#include "book/book.h"

namespace fallwright {

// A place in a frame. Places in different frames have nothing to do with one another.
struct Spot {
    bool known = false;
    std::int32_t frame = 0;  // 0: the grid; 1 + i: line i without a plan
    double e = 0, n = 0;
};

// A direction as a unit vector. Its right is (n, -e).
struct Heading {
    bool known = false;
    double e = 0, n = 1;
};

class PlanLine {
  public:
    PlanLine(const LineEntry& line, std::int32_t index);

    Spot at(double ch, double off) const;
    // Along the segment nearest the spot, with chainage; unknown where the spot lies in another frame, unless
    // all segments have one direction.
    Heading nearest_heading(const Spot& spot) const;

  private:
    struct Segment {
        double start, length;  // chainage of its first point; length of the segment
        double e, n;           // its first point
        double de, dn;         // unit vector with chainage
    };
    std::int32_t frame_ = 0;
    std::vector<Segment> segments_;
};

}  // namespace fallwright
