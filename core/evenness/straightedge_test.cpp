#include "evenness/straightedge.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace fallwright {

namespace {

RowLine random_row() {
    RowLine row;
    const int count = *rc::gen::inRange(3, 40);
    double x = 0;
    for (int i = 0; i < count; ++i) {
        x += *rc::gen::inRange(50, 1500) / 1000.0;
        row.x.push_back(x);
        row.h.push_back(*rc::gen::inRange(-20, 21) / 1000.0);
    }
    return row;
}

// By every pair of readings that fits under the edge.
double gap_by_pairs(const RowLine& row, std::size_t i, double length) {
    double worst = 0;
    for (std::size_t a = 0; a < i; ++a) {
        for (std::size_t b = i + 1; b < row.x.size(); ++b) {
            if (row.x[b] - row.x[a] <= length + 1e-9) worst = std::max(worst, under(row, a, i, b));
        }
    }
    return worst;
}

}  // namespace

// IR-11: 0, 3, 1 mm at 1 m: the middle lies 2.5 mm off the mean of its neighbours, base 2 m (constructed for
// the reference from DIN 18202's grid rule).
TEST(Straightedge, ThreePointsOfTheReference) {
    const RowLine row = {{0, 1, 2}, {0, 0.003, 0.001}};
    EXPECT_NEAR(-under(row, 0, 1, 2), 0.0025, 1e-12);
    std::vector<Rest> worst;
    ASSERT_TRUE(worst_spots(
        row, 15, [](double) { return 0.006; }, worst));
    EXPECT_NEAR(worst[1].gap, -0.0025, 1e-12);
    EXPECT_EQ(worst[1].a, 0U);
    EXPECT_EQ(worst[1].b, 2U);
    // An edge rests on the middle: nothing lies under it.
    EXPECT_EQ(gaps_under(row, 3)[1].gap, 0);
}

TEST(Straightedge, ADipIsAsDeepAsItIsAndABumpLiftsTheEdge) {
    const RowLine dip = {{0, 1, 2, 3}, {0, 0, -0.005, 0}};
    EXPECT_NEAR(gaps_under(dip, 3)[2].gap, 0.005, 1e-12);
    EXPECT_EQ(gaps_under(dip, 3)[1].gap, 0);
    EXPECT_EQ(gaps_under(dip, 1.5)[2].gap, 0);  // no two readings under so short an edge hold one between
    const RowLine bump = {{0, 1, 2, 3, 4, 5, 6}, {0, 0, 0, 0.006, 0, 0, 0}};
    EXPECT_NEAR(gaps_under(bump, 3)[2].gap, 0.004,
                1e-12);  // from the bump to 3 m before it, 1 m away from it
    EXPECT_NEAR(gaps_under(bump, 3)[1].gap, 0.002, 1e-12);
    EXPECT_EQ(gaps_under(bump, 3)[3].gap, 0);
}

TEST(Straightedge, AnEdgeAsLongAsTheDistanceFits) {
    const RowLine row = {{0, 1.5, 3.0000000001}, {0, -0.004, 0}};
    EXPECT_NEAR(gaps_under(row, 3)[1].gap, 0.004, 1e-12);
}

TEST(Straightedge, APlaneHasNoGap) {
    RowLine row;
    for (int i = 0; i < 50; ++i) {
        row.x.push_back(0.25 * i);
        row.h.push_back(20 - 0.0317 * 0.25 * i);
    }
    for (const Rest& rest : gaps_under(row, 3)) EXPECT_NEAR(rest.gap, 0, 1e-12);
}

TEST(Straightedge, TooManyReadingsUnderOneTableAreSaid) {
    RowLine row;
    for (int i = 0; i < 200; ++i) {
        row.x.push_back(0.01 * i);
        row.h.push_back(0);
    }
    std::vector<Rest> worst;
    EXPECT_FALSE(worst_spots(
        row, 15, [](double) { return 0.001; }, worst));
    EXPECT_TRUE(worst.empty());
}

RC_GTEST_PROP(Straightedge, HullIsWhatEveryPairSays, ()) {
    const RowLine row = random_row();
    const double length = *rc::gen::element(1.0, 3.0, 3.048);
    const std::vector<Rest> found = gaps_under(row, length);
    for (std::size_t i = 0; i < row.x.size(); ++i) {
        RC_ASSERT(std::fabs(found[i].gap - gap_by_pairs(row, i, length)) < 1e-12);
        if (found[i].gap > 0)
            RC_ASSERT(std::fabs(under(row, found[i].a, i, found[i].b) - found[i].gap) < 1e-15);
    }
}

RC_GTEST_PROP(Straightedge, SlopeAndDirectionDoNotMatterAndALongerEdgeSeesMore, ()) {
    const RowLine row = random_row();
    RowLine tilted = row, turned;
    for (std::size_t i = 0; i < row.x.size(); ++i) {
        tilted.h[i] += 5 - 0.04 * row.x[i];
        turned.x.push_back(-row.x[row.x.size() - 1 - i]);
        turned.h.push_back(row.h[row.x.size() - 1 - i]);
    }
    const std::vector<Rest> found = gaps_under(row, 3);
    const std::vector<Rest> on_slope = gaps_under(tilted, 3);
    const std::vector<Rest> backwards = gaps_under(turned, 3);
    const std::vector<Rest> longer = gaps_under(row, 4);
    for (std::size_t i = 0; i < row.x.size(); ++i) {
        RC_ASSERT(std::fabs(found[i].gap - on_slope[i].gap) < 1e-12);
        RC_ASSERT(std::fabs(found[i].gap - backwards[row.x.size() - 1 - i].gap) < 1e-12);
        RC_ASSERT(longer[i].gap >= found[i].gap - 1e-12);
    }
}

// High spots see each other; with one limit for every distance the worst of them is the hull's gap.
RC_GTEST_PROP(Straightedge, SpotsOfOneLimitFindTheDeepestGap, ()) {
    const RowLine row = random_row();
    std::vector<Rest> worst;
    RC_ASSERT(worst_spots(
        row, 6, [](double) { return 0.003; }, worst));
    const std::vector<Rest> hull = gaps_under(row, 6);
    for (std::size_t i = 0; i < row.x.size(); ++i) RC_ASSERT(std::fabs(worst[i].gap) >= hull[i].gap - 1e-12);
}

}  // namespace fallwright
