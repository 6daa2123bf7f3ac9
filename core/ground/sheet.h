// sheet: a measured surface made ready for sums over it: corners with levels, and plane triangles between
// them.
//
// Corners come in two kinds. Spots have a level of their own; blends have one that is a sum of levels of
// corners before them (the middle of a cell is the mean of its four corners), so that whatever is worked out
// from the sheet can be traced back to the spots, and takes their covariance.
//
// A boundary leaves parts of triangles. The outline of a part goes counterclockwise and may run along an edge
// there and back; sums over its sides count such a stretch once each way, so areas and integrals are right.
//
// Metres from an origin, so that far grids lose no digits. Triangles are counterclockwise.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ground/triangulation.h"

namespace fallwright::ground {

constexpr std::size_t most_blended = 6;

struct Blend {
    std::array<std::int32_t, most_blended> of{};
    std::array<double, most_blended> share{};
    std::int32_t count = 0;

    void add(std::int32_t corner, double part);
};

struct Sheet {
    EastNorth origin;
    std::vector<EastNorth> at;       // of all corners: spots, then blends
    std::vector<double> level;       // of all corners
    std::vector<std::int32_t> spot;  // per spot: its number where the surface was put together
    std::vector<Blend> blends;       // of the corners after the spots
    std::vector<std::array<std::int32_t, 3>> triangles;
    std::vector<std::vector<EastNorth>> parts;  // outlines of what is left of the last triangles

    std::size_t spots() const { return spot.size(); }
    std::size_t whole() const { return triangles.size() - parts.size(); }
    // Plan area of all of it, and of one triangle as if it were whole.
    double area() const;
    double area(std::size_t triangle) const;
    // Weights of corners as weights of spots alone.
    std::vector<double> on_spots(std::vector<double> weights) const;
};

// How much each corner of a triangle counts at a place, inside or not: shares add up to 1.
std::array<double, 3> shares_at(const Sheet& sheet, std::size_t triangle, const EastNorth& place);

// Area inside an outline, positive counterclockwise.
double area_within(const std::vector<EastNorth>& outline);

Sheet sheet_of(const Triangulation& ground);

}  // namespace fallwright::ground
