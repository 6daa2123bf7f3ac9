#include "ground/triangulation.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright::ground {

namespace {

SurfaceInput of(std::vector<SpotLevel> spots) {
    SurfaceInput input;
    input.spots = std::move(spots);
    return input;
}

Code refusal(const SurfaceInput& input) {
    const Result<Triangulation> made = triangulate(input);
    return made ? Code::count_ : made.finding().code;
}

TEST(Triangulation, SquareIsCutThroughItsSouthWestCorner) {
    const Result<Triangulation> made = triangulate(of({{10, 10, 3}, {0, 0, 1}, {0, 10, 2.5}, {10, 0, 2}}));
    ASSERT_TRUE(made);
    EXPECT_EQ(made->triangles(), 2);
    EXPECT_DOUBLE_EQ(level_at(*made, {5, 5}), 2);
    EXPECT_DOUBLE_EQ(level_at(*made, {2.5, 5}), 1.875);
    EXPECT_DOUBLE_EQ(level_at(*made, {10, 10}), 3);
    EXPECT_TRUE(std::isnan(level_at(*made, {10.001, 5})));
}

TEST(Triangulation, ThreeSpotsAreATriangle) {
    const Result<Triangulation> made =
        triangulate(of({{400000, 5600000, 1}, {400009, 5600000, 4}, {400000, 5600009, 7}}));
    ASSERT_TRUE(made);
    EXPECT_EQ(made->triangles(), 1);
    EXPECT_DOUBLE_EQ(made->origin_e, 400000);
    const Located middle = triangle_at(*made, {400003, 5600003});
    for (const double weight : middle.weight) EXPECT_DOUBLE_EQ(weight, 1.0 / 3);
    EXPECT_DOUBLE_EQ(level_at(*made, {400003, 5600003}), 4);
}

TEST(Triangulation, SpotsWithoutAnAreaAreRefused) {
    EXPECT_EQ(refusal({}), Code::GroundNoArea);
    EXPECT_EQ(refusal(of({{1, 1, 1}, {2, 1, 1}})), Code::GroundNoArea);
    EXPECT_EQ(refusal(of({{1, 1, 1}, {1, 1, 2}, {1, 1, 3}, {1, 1, 4}})), Code::GroundNoArea);
    std::vector<SpotLevel> row;
    for (int i = 0; i < 500; ++i) row.push_back({i * 0.007, i * 0.003, 1});
    EXPECT_EQ(refusal(of(row)), Code::GroundNoArea);
    row.push_back({1, 0, 1});
    EXPECT_EQ(refusal(of(row)), Code::count_);
}

TEST(Triangulation, SpotsTooFarApartAreRefused) {
    EXPECT_EQ(refusal(of({{0, 0, 1}, {1e6, 0, 1}, {0, 1e6, 1}})), Code::count_);
    EXPECT_EQ(refusal(of({{0, 0, 1}, {1.1e6, 0, 1}, {0, 1, 1}})), Code::GroundTooWide);
    EXPECT_EQ(refusal(of({{0, 0, 1}, {1e300, 0, 1}, {0, 1, 1}})), Code::GroundTooWide);
    EXPECT_EQ(refusal(of({{0, NAN, 1}, {1, 0, 1}, {0, 1, 1}})), Code::GroundTooWide);
    SurfaceInput input = of({{0, 0, 1}, {1, 0, 1}, {0, 1, 1}});
    input.inside = {{0, 0}, {INFINITY, 0}, {0, 1}};
    EXPECT_EQ(refusal(input), Code::GroundTooWide);
}

TEST(Triangulation, SpotsAtOneMillimetreAreOne) {
    const Result<Triangulation> made = triangulate(
        of({{0, 0, 1}, {0.0004, 0.0004, 9}, {1, 0, 1}, {0, 1, 1}, {1.00049, -0.00049, 7}, {0, 0, 3}}));
    ASSERT_TRUE(made);
    EXPECT_EQ(made->triangles(), 1);
    ASSERT_EQ(made->together.size(), 3U);
    EXPECT_EQ(made->together[0].kept, 0);
    EXPECT_EQ(made->together[0].left_out, 1);
    EXPECT_EQ(made->together[1].left_out, 5);
    EXPECT_EQ(made->together[2].kept, 2);
    EXPECT_DOUBLE_EQ(level_at(*made, {0, 0}), 1);
}

TEST(Triangulation, HalfAMillimetreGoesAwayFromZero) {
    const Result<Triangulation> made = triangulate(of({{-0.0005, 0, 1}, {0.0005, 0, 1}, {0, 1.0004999, 1}}));
    ASSERT_TRUE(made);
    EXPECT_DOUBLE_EQ(made->origin_e, -0.001);
    for (const Place at : made->place)
        EXPECT_TRUE(at == (Place{0, 0}) || at == (Place{2, 0}) || at == (Place{1, 1000}));
}

}  // namespace

}  // namespace fallwright::ground
