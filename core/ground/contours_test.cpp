#include "ground/contours.h"

#include <gtest/gtest.h>

#include <cmath>

#include "ground/boundary.h"
#include "ground/drawn_ground.h"

namespace fallwright::ground {

namespace {

Triangulation surface(std::vector<SpotLevel> spots, std::vector<EastNorth> inside = {},
                      std::vector<std::vector<std::int32_t>> breaklines = {}) {
    SurfaceInput input;
    input.spots = std::move(spots);
    input.inside = std::move(inside);
    input.breaklines = std::move(breaklines);
    return *triangulate(input);
}

Contours at_level(const Triangulation& ground, double level) {
    return draw_contours(ground, {Decimal::metres(level)});
}

double length(const Contours& contours) {
    double sum = 0;
    for (const ContourLine& line : contours.lines)
        for (std::size_t i = line.closed ? 0 : 1; i < line.count; ++i) {
            const EastNorth a = contours.at[line.first + (i + line.count - 1) % line.count];
            const EastNorth b = contours.at[line.first + i];
            sum += std::hypot(b.e - a.e, b.n - a.n);
        }
    return sum;
}

// A square of 20 m with its middle raised.
std::vector<SpotLevel> pyramid(double top) {
    return {{0, 0, 0}, {20, 0, 0}, {20, 20, 0}, {0, 20, 0}, {10, 10, top}};
}

// A road 10 m wide whose crown is level.
std::vector<SpotLevel> crown(double level) {
    std::vector<SpotLevel> spots;
    for (int i = 0; i <= 4; ++i) {
        spots.push_back({10.0 * i, 0, 10});
        spots.push_back({10.0 * i, 5, level});
        spots.push_back({10.0 * i, 10, 10});
    }
    return spots;
}

TEST(Contours, HalfWayUpAPyramidIsASquareOfHalfTheSize) {
    const Contours contours = at_level(surface(pyramid(4)), 2);
    ASSERT_EQ(contours.lines.size(), 1U);
    EXPECT_TRUE(contours.lines[0].closed);
    EXPECT_EQ(contours.lines[0].count, 4U);
    EXPECT_DOUBLE_EQ(length(contours), 40);
    double twice = 0;  // counterclockwise: higher ground to the left
    for (std::size_t i = 0; i < 4; ++i) {
        const EastNorth a = contours.at[i], b = contours.at[(i + 1) % 4];
        twice += a.e * b.n - a.n * b.e;
    }
    EXPECT_DOUBLE_EQ(twice, 200);
}

TEST(Contours, EndAtTheHull) {
    const Contours contours = at_level(surface({{0, 0, 0}, {10, 0, 1}, {10, 10, 1}, {0, 10, 0}}), 0.25);
    ASSERT_EQ(contours.lines.size(), 1U);
    EXPECT_FALSE(contours.lines[0].closed);
    EXPECT_DOUBLE_EQ(contours.at[0].e, 2.5);
    EXPECT_DOUBLE_EQ(contours.at[0].n, 10);
    EXPECT_DOUBLE_EQ(contours.at[contours.lines[0].count - 1].n, 0);
}

TEST(Contours, ASummitHasNoLineAndACrestHasOne) {
    EXPECT_TRUE(at_level(surface(pyramid(4)), 4).lines.empty());
    const Contours contours = at_level(surface(crown(10.125)), 10.125);
    ASSERT_EQ(contours.lines.size(), 1U);
    EXPECT_FALSE(contours.lines[0].closed);
    EXPECT_EQ(contours.lines[0].count, 5U);
    EXPECT_DOUBLE_EQ(length(contours), 40);
}

// A plateau of one triangle with a crest from one of its corners, lower ground close by.
TEST(Contours, ACrestEndsWhereLevelGroundBegins) {
    const Triangulation ground = surface({{10, 10, 5},
                                          {14, 10, 5},
                                          {12, 13, 5},
                                          {19, 10, 5},
                                          {24, 10, 5},
                                          {15.5, 11.6, 4},
                                          {15, 9, 4},
                                          {0, 0, 0},
                                          {40, 0, 0},
                                          {40, 30, 0},
                                          {0, 30, 0}},
                                         {}, {{0, 1, 2, 0}, {1, 3, 4}});
    const Contours contours = at_level(ground, 5);
    ASSERT_EQ(contours.lines.size(), 2U);
    EXPECT_TRUE(contours.lines[0].closed);
    EXPECT_EQ(contours.lines[0].count, 3U);
    EXPECT_FALSE(contours.lines[1].closed);
    EXPECT_EQ(contours.lines[1].count, 3U);
    EXPECT_NEAR(length(contours), 10 + 4 + 2 * std::sqrt(13), 1e-12);
}

// A crater.
TEST(Contours, ARimHasOneLine) {
    std::vector<SpotLevel> spots = {{0, 0, 3}};
    for (int i = 0; i < 8; ++i) {
        const double e = i % 4 < 2 ? 1 : -1, n = (i + 2) % 8 < 4 ? 1 : -1, even = i % 2;
        spots.push_back({e * (4 + 2 * even), n * (6 - 2 * even), 5});
        spots.push_back({e * (20 + 3 * even), n * (25 - 3 * even), 1});
    }
    const Contours contours = at_level(surface(spots), 5);
    ASSERT_EQ(contours.lines.size(), 1U);
    EXPECT_TRUE(contours.lines[0].closed);
    EXPECT_EQ(contours.lines[0].count, 8U);
}

TEST(Contours, AChannelOfThatLevelHasNone) {
    EXPECT_TRUE(at_level(surface(crown(9.875)), 9.875).lines.empty());
}

TEST(Contours, LevelGroundHasNone) {
    EXPECT_TRUE(at_level(surface(pyramid(0)), 0).lines.empty());
}

TEST(Contours, TheBoundaryCutsThem) {
    const Triangulation ground = surface(pyramid(4), {{0, 4}, {20, 4}, {20, 16}, {0, 16}});
    EXPECT_DOUBLE_EQ(length(at_level(ground, 2)), 40);
    const Contours contours = at_level(ground, 1.2);  // a square of 14 m, of which 12 m of two sides are left
    ASSERT_EQ(contours.lines.size(), 2U);
    EXPECT_DOUBLE_EQ(length(contours), 24);
}

TEST(Contours, ALineInTwoPartsOfTheBoundary) {
    // A yard in the form of a U on a plane that rises to the east: each arm has its own part of the line.
    const Triangulation ground =
        surface({{0, 0, 0}, {30, 0, 0}, {30, 30, 3}, {0, 30, 3}},
                {{1, 1}, {29, 1}, {29, 29}, {20, 29}, {20, 10}, {10, 10}, {10, 29}, {1, 29}});
    const Contours contours = at_level(ground, 2);
    ASSERT_EQ(contours.lines.size(), 2U);
    EXPECT_NEAR(length(contours), 18, 1e-12);
}

TEST(Contours, LevelsAreWholeMultiplesThatTheSurfaceReaches) {
    const Triangulation ground = surface({{0, 0, -0.3}, {10, 0, 0.1}, {0, 10, 0.25}});
    const Result<std::vector<Decimal>> levels = contour_levels(ground, Decimal::metres(0.1));
    ASSERT_TRUE(levels);
    ASSERT_EQ(levels->size(), 6U);
    EXPECT_EQ(levels->front(), Decimal::metres(-0.3));
    EXPECT_EQ(levels->back(), Decimal::metres(0.2));
    EXPECT_FALSE(contour_levels(ground, Decimal{}));
    EXPECT_FALSE(contour_levels(ground, Decimal::metres(-1)));
    EXPECT_FALSE(contour_levels(ground, Decimal::metres(0.0001)));
    EXPECT_EQ(contour_levels(ground, Decimal::metres(1), Decimal::metres(7.2))->size(), 1U);
}

struct Segment {
    EastNorth a, b;
    std::int64_t level;
};

double off(EastNorth a, EastNorth b, EastNorth c) {
    return (b.e - a.e) * (c.n - a.n) - (b.n - a.n) * (c.e - a.e);
}

// By more than rounding.
bool cross(const Segment& one, const Segment& other) {
    const double slack = 1e-9 * (std::hypot(one.b.e - one.a.e, one.b.n - one.a.n) +
                                 std::hypot(other.b.e - other.a.e, other.b.n - other.a.n));
    const auto apart = [&](double p, double q) {
        return (p > slack && q < -slack) || (p < -slack && q > slack);
    };
    return apart(off(one.a, one.b, other.a), off(one.a, one.b, other.b)) &&
           apart(off(other.a, other.b, one.a), off(other.a, other.b, one.b));
}

std::vector<Segment> segments_of(const Contours& contours) {
    std::vector<Segment> all;
    for (const ContourLine& line : contours.lines)
        for (std::size_t i = line.closed ? 0 : 1; i < line.count; ++i)
            all.push_back({contours.at[line.first + (i + line.count - 1) % line.count],
                           contours.at[line.first + i], line.level.ticks()});
    return all;
}

// Few levels, so that many spots lie exactly at one.
SurfaceInput drawn_heights() {
    SurfaceInput input;
    input.spots = drawn_spots(40);
    const int heights = *rc::gen::element(2, 3, 5, 1000);
    for (SpotLevel& spot : input.spots) spot.level = 50 + drawn(0, heights) * 0.1;
    return input;
}

RC_GTEST_PROP(Contours, NeverCrossAndNoneIsDrawnTwice, ()) {
    const Triangulation ground = made(drawn_heights());
    std::vector<Decimal> levels;
    for (int i = 0; i < 9; ++i) levels.push_back(Decimal::metres(50 + i * 0.05));
    const std::vector<Segment> all = segments_of(draw_contours(ground, levels));
    for (std::size_t i = 0; i < all.size(); ++i) {
        RC_ASSERT(!(all[i].a.e == all[i].b.e && all[i].a.n == all[i].b.n));
        for (std::size_t k = 0; k < i; ++k) {
            RC_ASSERT(!cross(all[i], all[k]));
            const auto same = [](EastNorth p, EastNorth q) { return p.e == q.e && p.n == q.n; };
            RC_ASSERT(!(same(all[i].a, all[k].a) && same(all[i].b, all[k].b)));
            RC_ASSERT(!(same(all[i].a, all[k].b) && same(all[i].b, all[k].a)));
        }
    }
}

double nearest_side(const std::vector<Place>& ring, EastNorth at) {
    double nearest = INFINITY;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Place p = ring[i], q = ring[(i + 1) % ring.size()];
        const EastNorth a{p.e / 1000.0, p.n / 1000.0}, b{q.e / 1000.0, q.n / 1000.0};
        nearest = std::min(nearest, std::abs(off(a, b, at)) / std::hypot(b.e - a.e, b.n - a.n));
    }
    return nearest;
}

bool at_a_spot(const Triangulation& ground, EastNorth at) {
    return std::any_of(ground.place.begin(), ground.place.end(),
                       [&](Place spot) { return spot.e / 1000.0 == at.e && spot.n / 1000.0 == at.n; });
}

RC_GTEST_PROP(Contours, EndAtTheHullOrWithACrest, ()) {
    const Triangulation ground = made(drawn_heights());
    const std::vector<Place> hull = hull_of(ground.place);
    const Contours contours = draw_contours(ground, {Decimal::metres(50.1), Decimal::metres(50.17)});
    for (const ContourLine& line : contours.lines) {
        RC_ASSERT(line.count >= (line.closed ? 3U : 2U));
        if (line.closed) continue;
        for (const EastNorth end : {contours.at[line.first], contours.at[line.first + line.count - 1]})
            RC_ASSERT(nearest_side(hull, end) < 1e-6 || at_a_spot(ground, end));
    }
}

// Where no spot is at the level each edge that passes it is met once, at the share of its rise.
RC_GTEST_PROP(Contours, MeetEveryEdgeThatPassesTheirLevel, ()) {
    const Triangulation ground = made(drawn_heights());
    const Seen seen{ground};
    const double level = 50.0501;
    std::vector<std::pair<double, double>> wanted, found;
    for (Edge e = 0; e < seen.edges(); ++e) {
        const double a = ground.level[index(seen.start(e))] - level,
                     b = ground.level[index(seen.start(next(e)))] - level;
        if ((a < 0) == (b < 0) || ground.twin[index(e)] > e) continue;
        const EastNorth p = ground.local(seen.start(e)), q = ground.local(seen.start(next(e)));
        wanted.emplace_back(p.e + a / (a - b) * (q.e - p.e), p.n + a / (a - b) * (q.n - p.n));
    }
    for (const EastNorth at : draw_contours(ground, {Decimal::metres(level)}).at)
        found.emplace_back(at.e, at.n);
    RC_ASSERT(wanted.size() == found.size());
    std::sort(wanted.begin(), wanted.end());
    std::sort(found.begin(), found.end());
    const double slack = 1e-9 * (1 + twice_area_of(hull_of(ground.place)) / 1e12);
    for (std::size_t i = 0; i < wanted.size(); ++i)
        RC_ASSERT(std::abs(wanted[i].first - found[i].first) < slack);
}

// Higher ground lies to the left: a closed line goes counterclockwise about a hill, clockwise about a hollow.
RC_GTEST_PROP(Contours, TurnedOverGroundTurnsThemRound, ()) {
    SurfaceInput input = drawn_heights();
    const auto area = [](const Contours& contours) {
        double sum = 0;
        for (const Segment& each : segments_of(contours)) sum += each.a.e * each.b.n - each.a.n * each.b.e;
        return sum;
    };
    const double up = area(at_level(made(input), 50.0501));
    for (SpotLevel& spot : input.spots) spot.level = -spot.level;
    const double down = area(at_level(made(input), -50.0501));
    RC_ASSERT(std::abs(up + down) <= 1e-6 * (1 + std::abs(up)));
}

}  // namespace

}  // namespace fallwright::ground
