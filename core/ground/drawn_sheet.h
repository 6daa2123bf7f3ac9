// drawn_sheet: random surfaces for tests. Inside ground only.
#pragma once

#include <rapidcheck.h>

#include <vector>

#include "ground/sheet.h"
#include "ground/triangulation.h"

namespace fallwright::ground {

// Spots to the millimetre in a square of that many metres, levels to the millimetre in +-1 m. Corners of the
// square first, so that all drawn surfaces of one size cover the same area.
inline std::vector<SpotLevel> drawn_spots(int side, int count) {
    const int wide = side * 1000;
    const auto level = [] { return *rc::gen::inRange(-1000, 1001) / 1000.0; };
    const double far = side;
    std::vector<SpotLevel> spots = {
        {0, 0, level()}, {far, 0, level()}, {far, far, level()}, {0, far, level()}};
    for (int i = 0; i < count; ++i) {
        const double e = *rc::gen::inRange(0, wide + 1) / 1000.0;
        const double n = *rc::gen::inRange(0, wide + 1) / 1000.0;
        spots.push_back({e, n, level()});
    }
    return spots;
}

// Spots that hold a surface: they are not all on one line.
inline Sheet sheet_through(const std::vector<SpotLevel>& spots) {
    SurfaceInput input;
    input.spots = spots;
    const Result<Triangulation> ground = triangulate(input);
    return ground ? sheet_of(*ground) : Sheet();
}

}  // namespace fallwright::ground
