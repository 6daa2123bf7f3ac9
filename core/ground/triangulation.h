// triangulation: spot levels become a surface of plane triangles.
//
// Which triangles
//   Positions are rounded to whole millimetres (to 1e-7 m first, then half away from zero), levels are taken
//   as they are (finite ones; spots without a level are for the caller to leave out). The triangles are the
//   Delaunay triangles of the positions: no position lies inside the circle through the corners of a
//   triangle. Of positions on one such circle the one furthest west (of several the one furthest south) is a
//   corner of every triangle between them. So the triangles depend on the positions alone, not on the order
//   in which they are given, and natively and in the browser they are the same. A shift by whole millimetres
//   changes nothing; turning by 90 degrees turns the triangles with it, but for those between positions on
//   one circle.
//
// Breaklines and boundary
//   Edges of a breakline are edges of triangles, split at spots that lie on them. The triangles are then
//   constrained Delaunay: a position inside the circle of a triangle is hidden from it by a breakline. A
//   breakline that crosses one above it is left out between those two spots: a level of its own where they
//   cross is what is missing (Crossing). Edges of the boundary whose two ends are spots are edges of
//   triangles as breaklines are, without a word where they cross one. Elsewhere the boundary cuts triangles
//   (Piece). Without a boundary the surface reaches to the convex hull of its spots.
//
// Ranges: 3 to 500,000,000 spots that do not all lie on one line, no two further apart than 1,000 km either
// way, coordinates within 1e9 m: predicates of whole millimetres then fit 128 bits (predicates.h) and are
// exact, none depends on rounding. Else a finding.
//
// Cost: sorted along a space-filling curve, then inserted one by one; about a microsecond and 100 bytes a
// spot, whatever the pattern. Metres, ratios. Sources: docs/methods/ground-surface.md.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "base/result.h"

namespace fallwright::ground {

struct EastNorth {
    double e = 0, n = 0;
};

struct SpotLevel {
    double e = 0, n = 0, level = 0;
};

struct SurfaceInput {
    std::vector<SpotLevel> spots;                       // in any order
    std::vector<std::vector<std::int32_t>> breaklines;  // chains of spots; the first of two that cross stands
    std::vector<EastNorth> inside;  // corners of the boundary, either way round; none: the convex hull
};

// Spots at one position to the millimetre: the lowest-numbered one stands, the other is not used.
struct Together {
    std::int32_t kept, left_out;
};

// Part `segment` of a breakline (from its spot `segment` to the next one) crosses a part of one that stands.
struct Crossing {
    std::int32_t line, segment;  // left out
    std::int32_t other_line, other_segment;
};

// Whole millimetres east and north of the origin of a triangulation.
struct Place {
    std::int32_t e = 0, n = 0;
    bool operator==(const Place&) const = default;
};

// What the boundary leaves of a triangle, not nothing. The outline goes counterclockwise and may run along an
// edge of the triangle there and back where the triangle is left in several parts; sums over its sides count
// such a stretch once each way, so areas and integrals by them are right. Metres from the origin.
struct Piece {
    std::int32_t triangle;
    std::vector<EastNorth> outline;
};

constexpr std::int32_t no_edge = -1;

// Edge 3 t + i runs from corner i to corner i + 1 (after 2 comes 0) of triangle t, counterclockwise.
struct Triangulation {
    // South-west corner of everything, whole millimetres as a double in metres: positions and pieces count
    // from there.
    double origin_e = 0, origin_n = 0;
    // Vertices, in an order that depends on the positions alone: near ones stand near each other.
    std::vector<Place> place;
    std::vector<double> level;
    std::vector<std::int32_t> spot;  // the spot that stands there

    // Per edge: the vertex it starts at, and the same edge of the triangle beside it, no_edge at the hull.
    std::vector<std::int32_t> corner;
    std::vector<std::int32_t> twin;
    // Per edge: whether it belongs to a breakline or the boundary; empty if there is none.
    std::vector<bool> fixed;

    std::vector<Place> boundary;  // counterclockwise; empty: none was given
    // Triangles of the surface come first: `whole` of them, then one for each of `cut`, in its order. What
    // follows lies outside.
    std::int32_t whole = 0;
    std::vector<Piece> cut;

    std::vector<Together> together;   // by kept, then by left_out
    std::vector<Crossing> crossings;  // in the order of the breaklines

    std::int32_t triangles() const { return static_cast<std::int32_t>(corner.size() / 3); }
    std::int32_t surface_triangles() const { return whole + static_cast<std::int32_t>(cut.size()); }
    // Of a vertex, metres from the origin.
    EastNorth local(std::int32_t vertex) const {
        const Place& at = place[static_cast<std::size_t>(vertex)];
        return {at.e / 1000.0, at.n / 1000.0};
    }
};

// Findings, about nothing: the caller names the surface. ground-no-area, ground-too-wide, ground-boundary
// (which touches or crosses itself, or encloses nothing).
Result<Triangulation> triangulate(const SurfaceInput& input);

// The triangle of the surface a place lies in, and how much each corner's level counts there; weights add up
// to 1, none is negative. triangle is -1 outside of the surface. Levels come from the same sum:
// level = sum of weight x level, so that its covariance is that of three levels.
struct Located {
    std::int32_t triangle = -1;
    std::array<double, 3> weight{};
};

// Rounded to the millimetre. `near` is a triangle to start from, any one will do; without it the start is
// looked for, which costs a search among the vertices. On an edge or a vertex: one of the triangles there.
Located triangle_at(const Triangulation& ground, EastNorth at, std::int32_t near = -1);
// NaN outside.
double level_at(const Triangulation& ground, EastNorth at, std::int32_t near = -1);

}  // namespace fallwright::ground
