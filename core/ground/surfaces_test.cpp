#include "ground/surfaces.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "ground/drawn_sheet.h"
#include "ground/surveyed.h"
#include "ground/volume_grid.h"

namespace fallwright::ground {

namespace {

constexpr double sd = 0.002;

std::vector<SpotLevel> square() {
    return {{0, 0, 10.4}, {20, 0, 10.0}, {20, 20, 10.0}, {0, 20, 10.4}};
}

std::vector<BookSpot> as_spots(const std::vector<SpotLevel>& levels) {
    std::vector<BookSpot> spots;
    for (const SpotLevel& each : levels) spots.push_back({no_name, -1, each.e, each.n, each.level});
    return spots;
}

}  // namespace

// TQ-10, the corner-weight rule as quoted: V = A / 4 (S1 + 2 S2 + 3 S3 + 4 S4), here for cells in an L with
// one corner of each kind but the fourth, and for a block of four cells.
TEST(VolumeGrid, CornersCountByTheirCells) {
    const double a = 10, levels[8] = {1, 2, 4, 8, 16, 32, 64, 128};
    //  6 7        cells: two below, one above the left one
    //  3 4 5
    //  0 1 2
    const std::vector<SpotLevel> ell = {{0, 0, levels[0]},  {10, 0, levels[1]},  {20, 0, levels[2]},
                                        {0, 10, levels[3]}, {10, 10, levels[4]}, {20, 10, levels[5]},
                                        {0, 20, levels[6]}, {10, 20, levels[7]}};
    const GridSheet grid = grid_sheet(as_spots(ell), a, a, {true, 0, 1});
    const double once = levels[0] + levels[2] + levels[5] + levels[6] + levels[7];
    const double twice = levels[1] + levels[3], thrice = levels[4];
    EXPECT_NEAR(earthwork(prisms_under(grid.sheet)).cut, a * a / 4 * (once + 2 * twice + 3 * thrice), 1e-9);
    EXPECT_NEAR(grid.sheet.area(), 300, 1e-9);
    EXPECT_TRUE(grid.off_grid.empty());
}

RC_GTEST_PROP(VolumeGridProperty, NetIsTheCornerWeightRule, ()) {
    const int columns = *rc::gen::inRange(2, 8), rows = *rc::gen::inRange(2, 8);
    const Heading heading = {true, 0.6, 0.8};
    std::vector<SpotLevel> spots;
    double sum = 0;
    for (int i = 0; i < columns; ++i) {
        for (int j = 0; j < rows; ++j) {
            const double u = 5.0 * i, v = 4.0 * j, level = *rc::gen::inRange(-1000, 1001) / 1000.0;
            spots.push_back({u * heading.e + v * heading.n, u * heading.n - v * heading.e, level});
            const int cells = (i > 0 && i + 1 < columns ? 2 : 1) * (j > 0 && j + 1 < rows ? 2 : 1);
            sum += cells * level;
        }
    }
    const GridSheet grid = grid_sheet(as_spots(spots), 5, 4, heading);
    const Earthwork work = earthwork(prisms_under(grid.sheet));
    RC_ASSERT(std::fabs(work.net() - 5 * 4 / 4.0 * sum) <= 1e-9 * (1 + std::fabs(sum)));
    RC_ASSERT(std::fabs(grid.sheet.area() - 20.0 * (columns - 1) * (rows - 1)) <= 1e-9);
    RC_ASSERT(work.cut >= 0 && work.fill >= 0);
}

TEST(Surfaces, VolumesOfARamp) {
    const Surveyed book(
        surface_lines(square(), R"(,"to":[{"level":10.2},{"level":10.1}],"bulking":0.3)", sd));
    const SurveyedSurface& ramp = book.surface();
    ASSERT_EQ(ramp.volumes.size(), 2u);
    EXPECT_NEAR(ramp.area, 400, 1e-12);
    EXPECT_NEAR(ramp.volumes[0].work.cut, 20, 1e-12);
    EXPECT_NEAR(ramp.volumes[0].work.fill, 20, 1e-12);
    EXPECT_NEAR(ramp.volumes[1].work.cut, 45, 1e-12);
    EXPECT_NEAR(ramp.volumes[0].loose, 26, 1e-12);
    EXPECT_NEAR(ramp.volumes[0].raised, 0, 1e-12);
    // Net: each of two triangles has a third of 200 m2 at each corner, the two on the diagonal count twice.
    const double once = 200.0 / 3, twice = 400.0 / 3;
    EXPECT_NEAR(ramp.volumes[0].net_sd, sd * std::sqrt(2 * once * once + 2 * twice * twice), 1e-12);
    EXPECT_NEAR(ramp.volumes[0].digs[1].dig, -0.2, 1e-12);
    EXPECT_NEAR(ramp.volumes[0].digs[1].sd, sd, 1e-15);
}

// What two surfaces share costs nothing: a surface against itself under another name.
TEST(Surfaces, VolumeBetweenSurfacesThroughTheSamePoints) {
    const Surveyed book(surface_lines(square(), R"(,"to":{"surface":"H","by":0.1})", sd) +
                        R"({"kind":"surface","name":"H","points":["p0","p1","p2","p3"]})" + "\n");
    const SurfaceVolume& volume = book.surface().volumes.at(0);
    EXPECT_NEAR(volume.work.cut, 40, 1e-9);
    EXPECT_NEAR(volume.cut_sd, 0, 1e-9);
    EXPECT_NEAR(volume.digs.at(2).dig, 0.1, 1e-12);
    EXPECT_NEAR(volume.digs.at(2).sd, 0, 1e-9);
    EXPECT_NEAR(volume.raised, 0.1, 1e-9);
}

TEST(Surfaces, TheBestPlaneIsThatOfItsPoints) {
    std::vector<SpotLevel> spots = square();
    spots.push_back({10, 10, 10.3});
    const Surveyed book(surface_lines(spots, R"(,"bearing":90)", sd));
    ASSERT_TRUE(book.surface().plane.has_value());
    const BestPlane& plane = *book.surface().plane;
    EXPECT_NEAR(plane.level, (10.4 + 10 + 10 + 10.4 + 10.3) / 5, 1e-12);
    EXPECT_NEAR(plane.slope.east, -0.02, 1e-12);
    EXPECT_NEAR(plane.along.main, -0.02, 1e-12);
    EXPECT_NEAR(plane.along.cross, 0, 1e-12);
    EXPECT_NEAR(plane.falls_to, 90, 1e-9);
    EXPECT_NEAR(plane.level_sd, sd / std::sqrt(5.0), 1e-12);
    EXPECT_NEAR(plane.east_sd, sd / 20, 1e-12);  // four corners 10 m off the middle: sqrt(4 x 10^2)
    EXPECT_EQ(plane.highest.spot, 4);
    EXPECT_NEAR(plane.highest.off, 0.08, 1e-12);
    EXPECT_NEAR(plane.highest.sd, sd * std::sqrt(1 - 1 / 5.0), 1e-12);
    EXPECT_NEAR(plane.rms, std::sqrt((0.08 * 0.08 + 4 * 0.02 * 0.02) / 5), 1e-12);
}

TEST(Surfaces, ABookWithoutSurfacesHasNone) {
    EXPECT_TRUE(Surveyed("").surveys.surfaces.empty());
    EXPECT_TRUE(Surveyed("").surveys.findings.empty());
}

// The joint probability of independent figures is their product: three points in a row, twice, far apart.
TEST(Surfaces, FlatnessOfIndependentFigures) {
    const std::vector<SpotLevel> spots = {{0, 0, 10},   {2, 0, 9.991},   {4, 0, 10},
                                          {0, 100, 10}, {2, 100, 10.01}, {4, 100, 10}};
    const Surveyed book(surface_lines(spots, R"(,"flatness":["din-18202-row-3"])", 0.001));
    const Flatness& flatness = book.surface().flatness.at(0);
    EXPECT_EQ(flatness.checks, 2u);
    EXPECT_EQ(flatness.outside, 0u);
    EXPECT_NEAR(flatness.worst.value, 0.010, 1e-12);
    EXPECT_NEAR(flatness.worst.sd, 0.001 * std::sqrt(1.5), 1e-12);
    const Limits limits = {-0.010, 0.010};
    const double each = 0.001 * std::sqrt(1.5);
    EXPECT_NEAR(flatness.probability,
                probability_within(-0.009, each, limits) * probability_within(0.010, each, limits), 1e-6);
    EXPECT_EQ(flatness.verdict, Verdict::Undecided);
}

TEST(OutlineCrosses, WhatIsNoSimpleOutline) {
    EXPECT_FALSE(outline_crosses({{0, 0}, {4, 0}, {4, 4}, {0, 4}}));
    EXPECT_FALSE(outline_crosses({{0, 0}, {4, 0}, {2, 2}, {4, 4}, {0, 4}}));
    EXPECT_FALSE(outline_crosses({{0, 0}, {2, 0}, {4, 0}, {4, 4}}));
    EXPECT_TRUE(outline_crosses({{0, 0}, {4, 4}, {4, 0}, {0, 4}}));
    EXPECT_TRUE(outline_crosses({{0, 0}, {4, 0}}));
    EXPECT_TRUE(outline_crosses({{0, 0}, {4, 0}, {4, 0}, {0, 4}}));
    EXPECT_TRUE(outline_crosses({{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}));
}

}  // namespace fallwright::ground
