// ponds: where water would stand in what was laid.
//
// Along the levels as laid, in the way the water runs: it leaves at the downstream end and at outlets, and
// comes in at the upstream end, which holds it back. The water's surface over a place is the lowest, over all
// ways out, of the highest level on the way; where that is above the level there, a pond stands. Its depth is
// the deepest; from and to are where its surface meets the invert, straight between readings. A sag whose low
// point is an outlet drains, so it is none.
//
// probability: that the sill over which it would spill is truly higher than its lowest point, from the joint
// covariance of the two. Sags that are not there as measured are not listed, though they may be there: the
// backfall probabilities of falls tell.
//
// Surface: laid of a drain (else its invert), finished of a road or slab, kerb of a kerb (else finished); of
// other lines laid, else finished. Metres, chainages.
#pragma once

#include <vector>

#include "fall/falls.h"

namespace fallwright {

struct Pond {
    double from = 0, to = 0;  // chainages, from < to
    double depth = 0;
    double probability = 0;
};

// By rising chainage. Depths that the result shows as 0 are none.
std::vector<Pond> find_ponds(const Book& book, const Design& design, const LineFalls& found,
                             const Model& model);

}  // namespace fallwright
