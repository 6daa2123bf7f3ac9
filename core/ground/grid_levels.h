// grid_levels: the levels of a measured surface at the corners of a regular grid, for those who set out or
// draw by one.
//
// Corners lie at whole multiples of the interval along the surface's bearing and to its right, counted from
// the origin of the grid of places, inside the outline and on the surface. By rows from the left, rows from
// the back. Each with its sd from the levels it is made of (up to most_with_sd of them, else NaN); how the
// ground runs between the spots is in no sd. Metres.
#pragma once

#include <vector>

#include "ground/volumes.h"

namespace fallwright::ground {

constexpr std::size_t most_grid_levels = 20000, most_with_sd = 2000;

struct GridLevel {
    double e = 0, n = 0, level = 0, sd = 0;
};

struct GridLevels {
    bool too_many = false;  // more corners than most_grid_levels: none are told
    std::vector<GridLevel> levels;
};

// every: above 0.
GridLevels grid_levels(const ReadySurface& surface, double every, const Model& model);

}  // namespace fallwright::ground
