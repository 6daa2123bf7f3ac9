// curve: a circular curve as chords that are as long as it. Inside landxml only.
#pragma once

#include <vector>

#include "exchange/handover/handover.h"

namespace fallwright::landxml {

using handover::EastNorth;

struct Curve {
    EastNorth start, center, end;
    bool clockwise = true;
};

// The corners after the start, the end with them. Interior corners lie on a circle a little larger, so that
// the chords together are as long as the curve; none is farther than `chord` from it. Nothing where start and
// end are not equally far from the center, to a millimetre, or the curve needs more than 20,000 chords.
std::vector<EastNorth> chords_of(const Curve& curve, double chord);

}  // namespace fallwright::landxml
