// Inside ground only. For tests: drawn spots, and what must be true of any triangulation, worked out the slow
// way from its arrays.
#pragma once

#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <random>
#include <set>
#include <vector>

#include "ground/mesh.h"
#include "ground/predicates.h"
#include "ground/triangulation.h"

namespace fallwright::ground {

inline int drawn(int from, int to) {
    return *rc::gen::inRange(from, to);
}

// Sites of different kinds: scattered; a grid of few places, so that many stand together, on lines and on
// circles; rows; corners of 1,000 km.
inline std::vector<SpotLevel> drawn_spots(int most) {
    const int kind = drawn(0, 5), count = drawn(3, most + 1);
    const std::array<int, 5> width = {1000000, 5, 40, 3, largest_coordinate};
    std::vector<SpotLevel> spots;
    spots.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        const int across = kind == 3 ? 2000 : width[index(kind)];
        spots.push_back(
            {drawn(0, across) / 1000.0, drawn(0, width[index(kind)]) / 1000.0, drawn(-5000, 5000) / 1000.0});
    }
    return spots;
}

// Seen from outside.
struct Seen {
    const Triangulation& ground;
    Vertex start(Edge e) const { return ground.corner[index(e)]; }
    Place at(Edge e) const { return ground.place[index(start(e))]; }
    std::array<Place, 3> corners(std::int32_t t) const { return {at(3 * t), at(3 * t + 1), at(3 * t + 2)}; }
    std::int64_t area(std::int32_t t) const { return side(at(3 * t), at(3 * t + 1), at(3 * t + 2)); }
    bool is_fixed(Edge e) const { return !ground.fixed.empty() && ground.fixed[index(e)]; }
    Edge edges() const { return static_cast<Edge>(ground.corner.size()); }
};

// Corners of the hull counterclockwise, those on its sides left out (monotone chain).
inline std::vector<Place> hull_of(std::vector<Place> places) {
    std::sort(places.begin(), places.end(), before);
    std::vector<Place> hull;
    for (int turn = 0; turn < 2; ++turn) {
        const std::size_t low = hull.size() + 1;
        for (const Place at : places) {
            while (hull.size() > low && side(hull[hull.size() - 2], hull.back(), at) <= 0) hull.pop_back();
            hull.push_back(at);
        }
        hull.pop_back();
        std::reverse(places.begin(), places.end());
    }
    return hull;
}

inline double twice_area_of(const std::vector<Place>& ring) {
    double sum = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        sum += static_cast<double>(side(ring[0], ring[i], ring[i + 1]));
    return sum;
}

// Twins agree, every triangle has an area, together they cover the hull and use every vertex.
inline void check_cover(const Triangulation& ground) {
    const Seen seen{ground};
    double sum = 0;
    std::set<Vertex> used;
    for (std::int32_t t = 0; t < ground.triangles(); ++t) {
        RC_ASSERT(seen.area(t) > 0);
        sum += static_cast<double>(seen.area(t));
    }
    for (Edge e = 0; e < seen.edges(); ++e) {
        used.insert(seen.start(e));
        const Edge twin = ground.twin[index(e)];
        if (twin == no_edge) continue;
        RC_ASSERT(ground.twin[index(twin)] == e);
        RC_ASSERT(seen.start(twin) == seen.start(next(e)));
        RC_ASSERT(seen.start(next(twin)) == seen.start(e));
        RC_ASSERT(seen.is_fixed(e) == seen.is_fixed(twin));
    }
    RC_ASSERT(used.size() == ground.place.size());
    const double hull = twice_area_of(hull_of(ground.place));
    RC_ASSERT(std::abs(sum - hull) <= 1e-12 * hull);
}

// No position inside the circle of any triangle, and of those on it the first is a corner.
inline void check_circles(const Triangulation& ground) {
    const Seen seen{ground};
    for (std::int32_t t = 0; t < ground.triangles(); ++t) {
        const auto [a, b, c] = seen.corners(t);
        const Place first = std::min({a, b, c}, before);
        for (const Place at : ground.place) {
            const int found = circle_sign(a, b, c, at);
            RC_ASSERT(found <= 0);
            RC_ASSERT(found < 0 || !before(at, first));
        }
    }
}

// As check_circles, but only across edges that are not fixed: enough by Delaunay's lemma.
inline void check_edges(const Triangulation& ground) {
    const Seen seen{ground};
    for (Edge e = 0; e < seen.edges(); ++e) {
        const Edge twin = ground.twin[index(e)];
        if (twin == no_edge || seen.is_fixed(e)) continue;
        RC_ASSERT(!in_circle(seen.at(e), seen.at(next(e)), seen.at(previous(e)), seen.at(previous(twin))));
    }
}

inline Triangulation made(const SurfaceInput& input) {
    Result<Triangulation> ground = triangulate(input);
    if (!ground) RC_DISCARD("no surface");
    return std::move(*ground);
}

}  // namespace fallwright::ground
