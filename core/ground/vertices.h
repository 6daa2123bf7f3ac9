// Inside ground only. Spots become vertices: rounded to the millimetre, sorted along a space-filling curve,
// those at one position merged.
#pragma once

#include <cstdint>
#include <vector>

#include "ground/triangulation.h"

namespace fallwright::ground {

// Whole millimetres, by the printing rule.
struct Grid {
    std::int64_t e = 0, n = 0;  // of its south-west corner
    int bits = 0;               // coordinates from there are below 2^bits

    // Only for what lies within.
    Place operator()(EastNorth at) const;
    // Along the curve through all places (Hilbert's): neighbours on it are neighbours on the ground.
    std::uint64_t rank(Place at) const;
};

// Around all spots and the boundary. Finding ground-too-wide.
Result<Grid> grid_around(const SurfaceInput& input);

// Fills origin, place, level, spot and together. Returns for each spot its vertex.
std::vector<std::int32_t> set_vertices(const SurfaceInput& input, const Grid& grid, Triangulation& ground);

}  // namespace fallwright::ground
