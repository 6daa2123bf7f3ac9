// Breaklines and boundaries.
#include <gtest/gtest.h>

#include <cmath>

#include "ground/boundary.h"
#include "ground/drawn_ground.h"

namespace fallwright::ground {

namespace {

using Parts = std::vector<std::pair<Place, Place>>;

// Chains of spots that need not have anything to do with each other.
std::vector<std::vector<std::int32_t>> drawn_breaklines(std::size_t spots) {
    std::vector<std::vector<std::int32_t>> lines(index(drawn(0, 6)));
    for (auto& line : lines)
        for (int count = drawn(0, 6); count > 0; --count) line.push_back(drawn(0, static_cast<int>(spots)));
    return lines;
}

int sign(std::int64_t value) {
    return value > 0 ? 1 : value < 0 ? -1 : 0;
}

// Both cross between their ends.
bool cross(Place a, Place b, Place c, Place d) {
    return sign(side(a, b, c)) * sign(side(a, b, d)) < 0 && sign(side(c, d, a)) * sign(side(c, d, b)) < 0;
}

bool meet_at_a_spot(const Triangulation& ground, Place a, Place b, Place c, Place d) {
    return std::any_of(ground.place.begin(), ground.place.end(),
                       [&](Place at) { return side(a, b, at) == 0 && side(c, d, at) == 0; });
}

// Fixed edges, one after the other, from one place straight to another.
bool is_there(const Triangulation& ground, Place from, Place to) {
    const Seen seen{ground};
    while (!(from == to)) {
        bool found = false;
        for (Edge e = 0; e < seen.edges() && !found; ++e)
            for (const auto& [a, b] :
                 {std::pair{seen.at(e), seen.at(next(e))}, std::pair{seen.at(next(e)), seen.at(e)}}) {
                const bool onwards =
                    side(from, to, b) == 0 && (std::abs(to.e - b.e) < std::abs(to.e - from.e) ||
                                               std::abs(to.n - b.n) < std::abs(to.n - from.n));
                if (found || !seen.is_fixed(e) || !(a == from) || !onwards) continue;
                found = true;
                from = b;
            }
        if (!found) return false;
    }
    return true;
}

Place place_of(const Triangulation& ground, const SpotLevel& spot) {
    return {static_cast<std::int32_t>(std::lround((spot.e - ground.origin_e) * 1000)),
            static_cast<std::int32_t>(std::lround((spot.n - ground.origin_n) * 1000))};
}

RC_GTEST_PROP(Constrained, BreaklinesAreEdgesAndTheRestIsDelaunay, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(60);
    input.breaklines = drawn_breaklines(input.spots.size());
    const Triangulation ground = made(input);
    check_cover(ground);
    check_edges(ground);
    Parts standing;
    std::vector<std::pair<int, int>> left_out;
    for (std::size_t line = 0; line < input.breaklines.size(); ++line)
        for (std::size_t i = 0; i + 1 < input.breaklines[line].size(); ++i) {
            const Place from = place_of(ground, input.spots[index(input.breaklines[line][i])]);
            const Place to = place_of(ground, input.spots[index(input.breaklines[line][i + 1])]);
            const bool free = std::none_of(standing.begin(), standing.end(), [&](const auto& part) {
                return cross(from, to, part.first, part.second) &&
                       !meet_at_a_spot(ground, from, to, part.first, part.second);
            });
            if (free)
                standing.emplace_back(from, to);
            else
                left_out.emplace_back(line, i);
        }
    for (const auto& [from, to] : standing) RC_ASSERT(is_there(ground, from, to));
    RC_ASSERT(ground.crossings.size() == left_out.size());
    for (std::size_t i = 0; i < left_out.size(); ++i) {
        RC_ASSERT(ground.crossings[i].line == left_out[i].first);
        RC_ASSERT(ground.crossings[i].segment == left_out[i].second);
    }
}

// Around a middle, so that it does not cross itself.
std::vector<EastNorth> drawn_boundary(double width) {
    const int count = drawn(3, 12);
    const double e = width * drawn(0, 100) / 100, n = width * drawn(0, 100) / 100;
    std::vector<EastNorth> ring;
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * M_PI * i / count, radius = width * drawn(10, 100) / 100;
        ring.push_back({e + radius * std::cos(angle), n + radius * std::sin(angle)});
    }
    return ring;
}

double area_of(const std::vector<EastNorth>& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const EastNorth a = ring[i], b = ring[(i + 1) % ring.size()];
        sum += a.e * b.n - a.n * b.e;
    }
    return sum / 2;
}

// Of the ring within the hull: the ring in triangles from one of its corners, each with its sign, and each
// within the triangles from one corner of the hull.
double area_within(const std::vector<Place>& ring, const std::vector<Place>& hull) {
    const Boundary boundary(ring);
    double sum = 0;
    for (std::size_t i = 1; i + 1 < hull.size(); ++i)
        sum += area_of(boundary.piece({hull[0], hull[i], hull[i + 1]}));
    return sum;
}

RC_GTEST_PROP(Constrained, WhatABoundaryLeavesAddsUp, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(60);
    input.breaklines = drawn_breaklines(input.spots.size());
    double width = 0;
    for (const SpotLevel& spot : input.spots) width = std::max({width, spot.e, spot.n});
    input.inside = drawn_boundary(width);
    const Result<Triangulation> result = triangulate(input);
    RC_PRE(static_cast<bool>(result));
    const Triangulation& ground = *result;
    check_cover(ground);
    check_edges(ground);
    const Seen seen{ground};
    double sum = 0;
    for (std::int32_t t = 0; t < ground.whole; ++t) sum += static_cast<double>(seen.area(t)) / 2e6;
    for (const Piece& piece : ground.cut) {
        const double part = area_of(piece.outline),
                     all = static_cast<double>(seen.area(piece.triangle)) / 2e6;
        RC_ASSERT(part > 0);
        RC_ASSERT(part < all * (1 + 1e-9));
        sum += part;
    }
    const double wanted = area_within(ground.boundary, hull_of(ground.place));
    RC_ASSERT(std::abs(sum - wanted) <= 1e-9 * (wanted + width * width));
    const Boundary boundary(ground.boundary);
    for (Edge e = 0; e < 3 * ground.whole; ++e) RC_ASSERT(boundary.holds(seen.at(e)));
}

// A yard in the form of an L, all corners read: no level comes from across the notch.
TEST(Constrained, ABoundaryThroughSpotsCutsNoTriangle) {
    SurfaceInput input;
    input.inside = {{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}};
    for (const EastNorth at : input.inside) input.spots.push_back({at.e, at.n, 1});
    input.spots.push_back({5, 5, 2});
    input.spots.push_back({28, 30, 2});
    const Result<Triangulation> made = triangulate(input);
    ASSERT_TRUE(made);
    EXPECT_TRUE(made->cut.empty());
    double sum = 0;
    for (std::int32_t t = 0; t < made->whole; ++t) sum += static_cast<double>(Seen{*made}.area(t)) / 2e6;
    EXPECT_DOUBLE_EQ(sum, 500);
    EXPECT_TRUE(std::isnan(level_at(*made, {20, 20})));
    EXPECT_DOUBLE_EQ(level_at(*made, {20, 10}), 1);
}

TEST(Constrained, ABoundaryWithoutSpotsCutsTriangles) {
    SurfaceInput input;
    input.spots = {{0, 0, 1}, {40, 0, 1}, {40, 40, 5}, {0, 40, 5}};
    input.inside = {{10, 30}, {30, 30}, {30, 10}, {10, 10}};
    const Result<Triangulation> made = triangulate(input);
    ASSERT_TRUE(made);
    EXPECT_EQ(made->whole, 0);
    ASSERT_EQ(made->cut.size(), 2U);
    for (const Piece& piece : made->cut) EXPECT_DOUBLE_EQ(area_of(piece.outline), 200);
    EXPECT_DOUBLE_EQ(level_at(*made, {10, 20}), 3);
    EXPECT_TRUE(std::isnan(level_at(*made, {9.999, 20})));
}

TEST(Constrained, BoundariesThatAreNoneAreRefused) {
    const auto refused = [](std::vector<EastNorth> inside) {
        SurfaceInput input;
        input.spots = {{0, 0, 1}, {40, 0, 1}, {40, 40, 5}};
        input.inside = std::move(inside);
        const Result<Triangulation> made = triangulate(input);
        return !made && made.finding().code == Code::GroundBoundary;
    };
    EXPECT_TRUE(refused({{1, 1}}));
    EXPECT_TRUE(refused({{1, 1}, {2, 2}, {1, 1}}));
    EXPECT_TRUE(refused({{1, 1}, {2, 2}, {3, 3}}));
    EXPECT_TRUE(refused({{0, 0}, {10, 10}, {10, 0}, {0, 10}}));
    EXPECT_TRUE(refused({{0, 0}, {10, 0}, {10, 10}, {5, 0}}));
    EXPECT_TRUE(refused({{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {5, 5}}));
    EXPECT_FALSE(refused({{0, 0}, {10, 0}, {10, 0}, {10, 10}, {0, 0}}));
}

TEST(Constrained, ALongBreaklineTurnsWhatItCrosses) {
    SurfaceInput input;
    std::mt19937 chance(7);
    const auto draw = [&] { return static_cast<double>(chance() % 100000) / 1000; };
    for (int i = 0; i < 20000; ++i) input.spots.push_back({draw(), draw(), 1});
    input.spots.push_back({-1, 3, 1});
    input.spots.push_back({101, 97, 1});
    input.breaklines = {{20000, 20001}};
    const Result<Triangulation> made = triangulate(input);
    ASSERT_TRUE(made);
    const Seen seen{*made};
    std::int32_t wrong = 0, fixed = 0;
    for (Edge e = 0; e < seen.edges(); ++e) {
        fixed += seen.is_fixed(e);
        const Edge twin = made->twin[index(e)];
        if (twin != no_edge && !seen.is_fixed(e))
            wrong += in_circle(seen.at(e), seen.at(next(e)), seen.at(previous(e)), seen.at(previous(twin)));
    }
    EXPECT_EQ(wrong, 0);
    EXPECT_GE(fixed, 2);
}

}  // namespace

}  // namespace fallwright::ground
