// trench: how deep the trench of a line of pipes is along it.
//
// From the higher of the ground on the line and at its edges down to the trench bottom (formation; where the
// bedding is not known the surface to dig to), at the line's own points and wherever its ground was read: the
// ground runs straight between readings and the bottom between own points, so the deepest place is one of
// these but on a vertical curve. At a chamber the deeper of its two sides. Metres, one standard deviation.
#pragma once

#include <vector>

#include "setout/setout.h"

namespace fallwright {

struct TrenchDepth {
    double ch = 0, depth = NAN;  // NaN where no ground was read, or nothing is designed
};

struct Trench {
    std::vector<TrenchDepth> depths;  // by chainage
    double deepest = NAN;             // NaN: nowhere known, or nowhere below the ground
    double deepest_sd = NAN, deepest_at = NAN;
};

// Of a line by index in Book::lines; one that carries no pipes has none.
Trench trench_along(const SetoutBasis& basis, std::size_t line);

}  // namespace fallwright
