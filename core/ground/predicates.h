// predicates: on which side of a line, inside or outside of a circle, for places in whole millimetres,
// exactly.
//
// With coordinates of 0 to 2^30 the differences fit 31 bits and a sign, the side of a line 62 bits, the
// circle test 124 bits: nothing is ever rounded. Most circle tests are settled in floating point, by a bound
// on what rounding can have done; only the rest is worked out in 128 bits. Source:
// docs/methods/ground-surface.md.
#pragma once

#include <cstdint>

#include "ground/triangulation.h"

namespace fallwright::ground {

// Largest coordinate, millimetres.
constexpr std::int32_t largest_coordinate = 1 << 30;

// Twice the area of a, b, c: positive where c lies to the left of a to b, 0 on the line.
inline std::int64_t side(Place a, Place b, Place c) {
    return (std::int64_t{b.e} - a.e) * (std::int64_t{c.n} - a.n) -
           (std::int64_t{b.n} - a.n) * (std::int64_t{c.e} - a.e);
}

// Sign of the circle test of a, b, c counterclockwise: 1 where d lies inside, -1 outside, 0 on the circle.
int circle_sign(Place a, Place b, Place c, Place d);

// Further west, or as far and further south.
inline bool before(Place a, Place b) {
    return a.e != b.e ? a.e < b.e : a.n < b.n;
}

// Whether d lies inside the circle of a, b, c (counterclockwise, d across a to b), so that the edge a b is to
// be c d. On one circle the first of the four by before() decides.
bool in_circle(Place a, Place b, Place c, Place d);

}  // namespace fallwright::ground
