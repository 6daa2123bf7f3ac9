#include "ground/standing_water.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "ground/drawn_sheet.h"
#include "ground/surveyed.h"

namespace fallwright::ground {

namespace {

// A pyramid turned over: rim at 10, 4 m by 4 m, the middle at 9.9.
std::vector<SpotLevel> pit() {
    return {{0, 0, 10}, {4, 0, 10}, {4, 4, 10}, {0, 4, 10}, {2, 2, 9.9}};
}

// The water over each corner by another road: levels on the ways from corner to corner are lowered until no
// way lowers any further (Bellman and Ford with max for plus).
std::vector<double> water_by_relaxing(const Sheet& sheet) {
    std::map<std::pair<std::int32_t, std::int32_t>, int> sides;
    for (const auto& triangle : sheet.triangles) {
        for (std::size_t k = 0; k < 3; ++k) {
            const auto ends = std::minmax(triangle[k], triangle[(k + 1) % 3]);
            ++sides[{ends.first, ends.second}];
        }
    }
    std::vector<double> water(sheet.level.size(), std::numeric_limits<double>::infinity());
    for (const auto& [side, count] : sides) {
        if (count != 1) continue;
        for (const std::int32_t end : {side.first, side.second})
            water[static_cast<std::size_t>(end)] = sheet.level[static_cast<std::size_t>(end)];
    }
    for (bool again = true; again;) {
        again = false;
        for (const auto& [side, count] : sides) {
            for (const auto& [a, b] :
                 {std::pair(side.first, side.second), std::pair(side.second, side.first)}) {
                const auto from = static_cast<std::size_t>(a), to = static_cast<std::size_t>(b);
                const double over = std::max(water[from], sheet.level[to]);
                if (over < water[to]) {
                    water[to] = over;
                    again = true;
                }
            }
        }
    }
    return water;
}

}  // namespace

TEST(StandingWater, APyramidTurnedOverFillsToItsRim) {
    const Surveyed book(surface_lines(pit()));
    const StandingWater& water = book.surface().water;
    ASSERT_EQ(water.ponds.size(), 1u);
    const SurfacePond& pond = water.ponds[0];
    EXPECT_EQ(book.name(pond.low.name), "p4");
    EXPECT_NEAR(pond.depth, 0.1, 1e-12);
    EXPECT_NEAR(pond.area, 16, 1e-12);
    EXPECT_NEAR(pond.volume, 16 * 0.1 / 3, 1e-12);
    EXPECT_EQ(pond.probability, 1);
    EXPECT_TRUE(water.drains);
}

// Levels of sd 2 mm each, independent: depth sqrt(2) x 2 mm; volume 16 m2 x sill less a third of 16 m2 x each
// level by its weight: (1/3 of the area lies at the low point, 1/6 at each corner of the rim).
TEST(StandingWater, UncertaintiesFollowTheLevels) {
    const Surveyed book(surface_lines(pit(), "", 0.002));
    const SurfacePond& pond = book.surface().water.ponds.at(0);
    EXPECT_NEAR(pond.depth_sd, 0.002 * std::sqrt(2.0), 1e-12);
    const double sill = 16 - 16.0 / 6, other = 16.0 / 6, low = 16.0 / 3;
    EXPECT_NEAR(pond.volume_sd, 0.002 * std::sqrt(sill * sill + 3 * other * other + low * low), 1e-10);
}

TEST(StandingWater, OutletsAndKerbs) {
    EXPECT_TRUE(Surveyed(surface_lines(pit(), R"(,"outlets":["p4"])")).surface().water.ponds.empty());
    const Surveyed closed(surface_lines(pit(), R"(,"edge":"kerbed")"));
    EXPECT_FALSE(closed.surface().water.drains);
    EXPECT_TRUE(closed.surface().water.ponds.empty());
    EXPECT_TRUE(closed.says(Code::SurfaceNoOutlet));
    std::vector<SpotLevel> tilted = pit();
    tilted[0].level = 10.2;
    tilted[1].level = tilted[2].level = tilted[3].level = 10.05;
    const Surveyed kerbed(surface_lines(tilted, R"(,"edge":"kerbed","outlets":["p0"])"));
    ASSERT_EQ(kerbed.surface().water.ponds.size(), 1u);
    EXPECT_NEAR(kerbed.surface().water.ponds[0].depth, 0.3, 1e-12);
    EXPECT_EQ(kerbed.name(kerbed.surface().water.ponds[0].sill.name), "p0");
}

TEST(StandingWater, AMillimetreIsListedAndLessIsNot) {
    std::vector<SpotLevel> shallow = pit();
    shallow[4].level = 9.999;
    EXPECT_EQ(Surveyed(surface_lines(shallow)).surface().water.ponds.size(), 1u);
    shallow[4].level = 9.9995;
    EXPECT_TRUE(Surveyed(surface_lines(shallow)).surface().water.ponds.empty());
}

// Every pond's level and low point against relaxing; their areas are no larger than the surface.
RC_GTEST_PROP(StandingWaterProperty, LevelsAreThoseOfTheLowestWayOut, ()) {
    const std::vector<SpotLevel> spots = drawn_spots(20, *rc::gen::inRange(1, 60));
    const Surveyed book(surface_lines(spots));
    const Sheet& sheet = book.surface().ready.sheet;
    const std::vector<double> water = water_by_relaxing(sheet);
    const StandingWater& found = book.surface().water;
    double wet = 0;
    for (const SurfacePond& pond : found.ponds) {
        wet += pond.area;
        bool matched = false;
        for (std::size_t i = 0; i < water.size(); ++i) {
            const auto spot = static_cast<std::size_t>(sheet.spot[i]);
            if (book.surface().ready.spots.spots[spot].name != pond.low.name) continue;
            matched = std::fabs(water[i] - pond.sill.level) < 1e-12 &&
                      std::fabs(water[i] - sheet.level[i] - pond.depth) < 1e-12;
        }
        RC_ASSERT(matched);
        RC_ASSERT(pond.volume <= pond.area * pond.depth + 1e-9);
    }
    RC_ASSERT(wet <= book.surface().area + 1e-9);
    // No hollow of a millimetre is left out: every corner so deep under water lies no deeper than the deepest
    // pond.
    double deepest = 0;
    for (std::size_t i = 0; i < water.size(); ++i)
        if (std::isfinite(water[i])) deepest = std::max(deepest, water[i] - sheet.level[i]);
    const double listed = found.ponds.empty() ? 0 : found.ponds.front().depth;
    RC_ASSERT(std::fabs(deepest - listed) < 0.001 + 1e-9);
}

}  // namespace fallwright::ground
