// prisms: what lies between a measured surface and another one, triangle by triangle.
//
// Over each triangle, or part of one, the height of the surface over the other is a plane, so what lies
// between them is a prism with slanting ends; where the height changes its sign the prism is split along the
// straight line where it is 0. Nothing is left out and nothing counted twice: the sums are exact for the
// surfaces as they are (docs/methods/volumes.md).
//
// Bases are the corners of the sheets, with heights that are levels of the upper sheet, less the level of the
// other surface there, and levels of the lower sheet with their sign turned. Further corners are blends of
// bases. A prism's area may be negative: outlines that run back and forth are cut into triangles that add up.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ground/sheet.h"

namespace fallwright::ground {

struct Prism {
    double area = 0;  // plan, signed
    std::array<std::int32_t, 3> corner{};
};

struct Prisms {
    std::size_t bases = 0;
    std::vector<double> height;  // per corner: bases, then blends
    std::vector<Blend> blends;
    std::vector<Prism> prisms;

    // Heights of blends from those of their bases, after these have changed.
    void settle();
};

// Heights are the levels of the sheet: whoever uses them takes off what the surface is held against, at the
// bases, and settles.
Prisms prisms_under(const Sheet& sheet);

// Where two sheets lie over one another: heights are upper less lower. Bases: corners of the upper, then
// those of the lower one. Both have the same origin or the difference of their origins is exact in a double.
Prisms prisms_between(const Sheet& upper, const Sheet& lower);

// What is to be dug down to the other surface (heights above 0) and filled up to it (below). Metres, plan
// areas, 0 or more but for rounding. `raised`: the other surface lies so much higher than the prisms have it.
struct Earthwork {
    double cut = 0, fill = 0;
    double cut_area = 0, fill_area = 0;

    double net() const { return cut - fill; }
    double area() const { return cut_area + fill_area; }
};
Earthwork earthwork(const Prisms& prisms, double raised = 0);

// How cut and fill grow with the height of each base. First order and exact as such: where the line of height
// 0 moves, the height beside it is 0.
struct EarthworkWeights {
    std::vector<double> cut, fill;
};
EarthworkWeights earthwork_weights(const Prisms& prisms, double raised = 0);

// For a triangle of area 1 whose corners lie at these heights: the part of it above 0 and, for each corner,
// the integral over that part of how much the corner counts there. Volume above 0: sum of moment x height.
struct AboveZero {
    double area = 0;
    std::array<double, 3> moment{};
};
AboveZero above_zero(const std::array<double, 3>& height);

}  // namespace fallwright::ground
