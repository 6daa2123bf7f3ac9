// balance: how high the surface to work to must lie so that what is dug fills what is to be filled.
//
// What is dug shrinks or grows before it lies compacted in the fill: 1 m3 in the bank gives `placed` m3 there
// (1 - shrinkage). The surface to work to is raised by z until placed x cut(z) = fill(z); cut falls and fill
// rises with z, so there is one z, found to rounding. Its derivative by the heights is that of the sum set
// to 0: weight = (placed x weight in cut - weight in fill) / (placed x cut area + fill area).
//
// Metres. No area: NaN.
#pragma once

#include <vector>

#include "ground/prisms.h"

namespace fallwright::ground {

struct Balance {
    double raised = 0;            // z; negative: lowered
    Earthwork work;               // at that height
    std::vector<double> weights;  // of the heights of bases in z
};

// placed above 0.
Balance balance(const Prisms& prisms, double placed);

}  // namespace fallwright::ground
