#include "ground/prisms.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "ground/balance.h"
#include "ground/drawn_sheet.h"

namespace fallwright::ground {

namespace {

// The integral of max(height, 0) over a triangle of area 1 by another road than the one under test: twice the
// second divided difference of max(x, 0)^3 / 6 at the three heights (Hermite and Genocchi).
double by_divided_differences(std::array<double, 3> x) {
    std::sort(x.begin(), x.end());
    const auto f = [](double v) { return v > 0 ? v * v * v / 6 : 0; };
    const auto first = [&](double a, double b) { return (f(b) - f(a)) / (b - a); };
    return 2 * (first(x[1], x[2]) - first(x[0], x[1])) / (x[2] - x[0]);
}

double volume_above(const std::array<double, 3>& height) {
    const AboveZero above = above_zero(height);
    return above.moment[0] * height[0] + above.moment[1] * height[1] + above.moment[2] * height[2];
}

bool close(double a, double b, double room) {
    return std::fabs(a - b) <= room * (1 + std::fabs(a) + std::fabs(b));
}

double area_of(const Prisms& prisms) {
    double sum = 0;
    for (const Prism& prism : prisms.prisms) sum += prism.area;
    return sum;
}

void lower(Prisms& prisms, double level, double east, double north, const Sheet& sheet) {
    for (std::size_t i = 0; i < prisms.bases; ++i)
        prisms.height[i] -= level + east * sheet.at[i].e + north * sheet.at[i].n;
    prisms.settle();
}

std::vector<SpotLevel> moved(std::vector<SpotLevel> spots, double e, double n) {
    for (SpotLevel& spot : spots) {
        spot.e += e;
        spot.n += n;
    }
    return spots;
}

}  // namespace

TEST(Prisms, TriangleSplitWhereItsHeightIsNought) {
    EXPECT_NEAR(volume_above({1, 1, 1}), 1, 1e-15);
    EXPECT_EQ(volume_above({-1, -1, 0}), 0);
    EXPECT_NEAR(volume_above({3, 0, 0}), 1, 1e-15);
    // Half of each side next to the corner: a quarter of the area, a third of the height.
    EXPECT_NEAR(volume_above({1, -1, -1}), 0.25 / 3, 1e-15);
    EXPECT_NEAR(above_zero({1, -1, -1}).area, 0.25, 1e-15);
    EXPECT_NEAR(above_zero({-1, 1, 1}).area, 0.75, 1e-15);
    EXPECT_EQ(above_zero({0, 0, 0}).area, 0);
    EXPECT_EQ(above_zero({1, 1, 0}).area, 1);
}

RC_GTEST_PROP(PrismsProperty, AgreesWithDividedDifferences, ()) {
    std::array<double, 3> height{};
    for (double& each : height) each = *rc::gen::inRange(-1000, 1001) / 64.0;
    RC_PRE(height[0] != height[1] && height[1] != height[2] && height[0] != height[2]);
    RC_ASSERT(close(volume_above(height), by_divided_differences(height), 1e-11));
    const AboveZero above = above_zero(height), below = above_zero({-height[0], -height[1], -height[2]});
    RC_ASSERT(close(above.area + below.area, 1, 1e-14));
    RC_ASSERT(close(above.moment[0] + above.moment[1] + above.moment[2], above.area, 1e-14));
}

RC_GTEST_PROP(PrismsProperty, WhatIsCutOneWayIsFilledTheOther, ()) {
    const int side = *rc::gen::inRange(1, 200);
    const Sheet upper = sheet_through(drawn_spots(side, *rc::gen::inRange(0, 30)));
    const Sheet lower = sheet_through(drawn_spots(side, *rc::gen::inRange(0, 30)));
    const Prisms between = prisms_between(upper, lower);
    const Earthwork down = earthwork(between);
    const Earthwork up = earthwork(prisms_between(lower, upper));
    const double all = 1.0 * side * side;
    RC_ASSERT(std::fabs(down.cut - up.fill) <= 1e-9 * all);
    RC_ASSERT(std::fabs(down.fill - up.cut) <= 1e-9 * all);
    RC_ASSERT(std::fabs(area_of(between) - all) <= 1e-9 * all);
    // Net is the difference of the two volumes over one level, which need no overlay.
    const double apart = earthwork(prisms_under(upper)).net() - earthwork(prisms_under(lower)).net();
    RC_ASSERT(std::fabs(down.net() - apart) <= 1e-9 * all);
}

RC_GTEST_PROP(PrismsProperty, OverlayOfASurfaceWithAPlaneIsItsVolumeToThePlane, ()) {
    const int side = *rc::gen::inRange(1, 200);
    const std::vector<SpotLevel> spots = drawn_spots(side, *rc::gen::inRange(0, 40));
    const Sheet ground = sheet_through(spots);
    const double level = *rc::gen::inRange(-500, 501) / 1000.0, east = *rc::gen::inRange(-50, 51) / 1000.0;
    std::vector<SpotLevel> plane(spots.begin(), spots.begin() + 4);
    for (SpotLevel& spot : plane) spot.level = level + east * spot.e;
    Prisms prisms = prisms_under(ground);
    lower(prisms, level, east, 0, ground);
    const Earthwork direct = earthwork(prisms);
    const Earthwork laid = earthwork(prisms_between(ground, sheet_through(plane)));
    const double all = (1.0 + std::fabs(east) * side) * side * side;
    RC_ASSERT(std::fabs(direct.cut - laid.cut) <= 1e-9 * all);
    RC_ASSERT(std::fabs(direct.fill - laid.fill) <= 1e-9 * all);
}

// Parted along a line, whatever it cuts through.
RC_GTEST_PROP(PrismsProperty, PartsOfTheAreaAddUp, ()) {
    const int side = *rc::gen::inRange(2, 200);
    const Sheet ground = sheet_through(drawn_spots(side, *rc::gen::inRange(0, 40)));
    const double parted = *rc::gen::inRange(1, side * 1000) / 1000.0, far = side;
    const Sheet west = sheet_through({{0, 0, 0}, {parted, 0, 0}, {parted, far, 0}, {0, far, 0}});
    const Sheet east = sheet_through({{parted, 0, 0}, {far, 0, 0}, {far, far, 0}, {parted, far, 0}});
    const Earthwork whole = earthwork(prisms_under(ground));
    const Earthwork first = earthwork(prisms_between(ground, west));
    const Earthwork second = earthwork(prisms_between(ground, east));
    RC_ASSERT(std::fabs(first.cut + second.cut - whole.cut) <= 1e-9 * far * far);
    RC_ASSERT(std::fabs(first.fill + second.fill - whole.fill) <= 1e-9 * far * far);
}

RC_GTEST_PROP(PrismsProperty, AShiftChangesNothing, ()) {
    const int side = *rc::gen::inRange(1, 100);
    const std::vector<SpotLevel> spots = drawn_spots(side, *rc::gen::inRange(0, 30));
    const Earthwork here = earthwork(prisms_under(sheet_through(spots)));
    const double e = *rc::gen::inRange(-1000000, 1000001), n = *rc::gen::inRange(-1000000, 1000001);
    const Earthwork there = earthwork(prisms_under(sheet_through(moved(spots, e, n))));
    RC_ASSERT(here.cut == there.cut);
    RC_ASSERT(here.fill == there.fill);
}

// Turned by a quarter the triangles turn with it, but for those between spots on one circle: drawn spots in a
// circle of their own have none.
RC_GTEST_PROP(PrismsProperty, AQuarterTurnChangesNothing, ()) {
    std::vector<SpotLevel> spots;
    const int count = *rc::gen::inRange(3, 30);
    for (int i = 0; i < count; ++i)
        spots.push_back({*rc::gen::inRange(0, 1000003) / 1000.0, *rc::gen::inRange(0, 1000003) / 1000.0,
                         *rc::gen::inRange(-1000, 1001) / 1000.0});
    const Sheet here = sheet_through(spots);
    for (SpotLevel& spot : spots) spot = {-spot.n, spot.e, spot.level};
    const Sheet there = sheet_through(spots);
    const Earthwork a = earthwork(prisms_under(here)), b = earthwork(prisms_under(there));
    const double all = 1 + here.area();
    RC_ASSERT(std::fabs(a.cut - b.cut) <= 1e-11 * all);
    RC_ASSERT(std::fabs(a.fill - b.fill) <= 1e-11 * all);
    RC_ASSERT(std::fabs(here.area() - there.area()) <= 1e-11 * all);
}

// Weights are derivatives: half the difference of the volumes with one spot raised and lowered a little.
RC_GTEST_PROP(PrismsProperty, WeightsAreWhatAVolumeGrowsBy, ()) {
    Sheet sheet = sheet_through(drawn_spots(10, *rc::gen::inRange(0, 12)));
    const EarthworkWeights weights = earthwork_weights(prisms_under(sheet));
    constexpr double little = 1e-6;
    const auto at = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(sheet.level.size())));
    const double level = sheet.level[at];
    sheet.level[at] = level + little;
    const Earthwork raised = earthwork(prisms_under(sheet));
    sheet.level[at] = level - little;
    const Earthwork lowered = earthwork(prisms_under(sheet));
    RC_ASSERT(std::fabs((raised.cut - lowered.cut) / (2 * little) - weights.cut[at]) <= 1e-3);
    RC_ASSERT(std::fabs((raised.fill - lowered.fill) / (2 * little) - weights.fill[at]) <= 1e-3);
}

RC_GTEST_PROP(BalanceProperty, NothingIsLeftOver, ()) {
    const Sheet sheet = sheet_through(drawn_spots(*rc::gen::inRange(1, 100), *rc::gen::inRange(0, 40)));
    const double placed = *rc::gen::inRange(50, 151) / 100.0;
    const Prisms prisms = prisms_under(sheet);
    const Balance found = balance(prisms, placed);
    const Earthwork work = earthwork(prisms, found.raised);
    RC_ASSERT(std::fabs(placed * work.cut - work.fill) <= 1e-10 * sheet.area());
    // Nothing lost on the way: the mean level.
    const Earthwork all = earthwork(prisms);
    const Balance even = balance(prisms, 1);
    RC_ASSERT(std::fabs(even.raised - all.net() / sheet.area()) <= 1e-10);
    double sum = 0;
    for (const double weight : found.weights) sum += weight;
    RC_ASSERT(std::fabs(sum - 1) <= 1e-9);
}

TEST(Balance, GroundThatIsLevelBalancesAtItsLevel) {
    const Sheet sheet = sheet_through({{0, 0, 7.5}, {10, 0, 7.5}, {0, 10, 7.5}});
    const Balance found = balance(prisms_under(sheet), 0.9);
    EXPECT_NEAR(found.raised, 7.5, 1e-12);
    EXPECT_EQ(found.work.cut, 0);
    for (const double weight : found.weights) EXPECT_NEAR(weight, 1.0 / 3, 1e-12);
}

TEST(Balance, NoAreaHasNoBalance) {
    EXPECT_TRUE(std::isnan(balance(Prisms(), 1).raised));
}

}  // namespace fallwright::ground
