// contours: lines of one level across a surface of triangles.
//
// Straight across each triangle, between the points of its edges where the level is met, joined from triangle
// to triangle. A line closes on itself or ends at the edge of the surface; where the boundary cuts a triangle
// it cuts the line. Higher ground lies to the left. Lines of different levels never meet, those of one level
// never cross.
//
// Levels, those of the spots too, are taken to 1e-7 m. A spot exactly at the level counts as above it by less
// than anything: a line passes through such a spot or passes it by, but never branches; level ground is
// bounded by the line and holds none. A summit has no line of its own level. A crest of that level between
// lower ground has one, not one on each side; it ends, or branches, where the crest does. A channel of that
// level between higher ground has none.
//
// Cost: what is crossed, a few bytes per triangle beside it. Metres from the origin of the triangulation.
// Source: docs/methods/contours.md.
#pragma once

#include <cstdint>
#include <vector>

#include "base/decimal.h"
#include "base/result.h"
#include "ground/triangulation.h"

namespace fallwright::ground {

// A stretch of Contours::at.
struct ContourLine {
    Decimal level;
    std::size_t first = 0, count = 0;  // count >= 2
    bool closed = false;               // the last point is joined to the first, which is not repeated
};

// Lines by rising level; of one level those that begin at the edge first, then closed ones, then crests.
struct Contours {
    std::vector<EastNorth> at;
    std::vector<ContourLine> lines;
};

// More levels than this are a slip.
constexpr std::size_t most_contour_levels = 5000;

// from + whole multiples of `every`, those that the surface reaches, rising. Findings: ground-contours (every
// not above 0, or more than most_contour_levels).
Result<std::vector<Decimal>> contour_levels(const Triangulation& ground, Decimal every, Decimal from = {});

// `levels` rising, none twice.
Contours draw_contours(const Triangulation& ground, const std::vector<Decimal>& levels);

}  // namespace fallwright::ground
