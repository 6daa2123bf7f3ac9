#include "ground/end_areas.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

namespace fallwright {

namespace {

std::vector<SectionArea> sections(const std::vector<double>& chainages, const std::vector<double>& areas) {
    std::vector<SectionArea> all;
    for (std::size_t i = 0; i < chainages.size(); ++i) all.push_back({chainages[i], areas[i]});
    return all;
}

}  // namespace

// TQ-03 Wikibooks, Fundamentals of Transportation, earthwork solution (printed): fill 4087.5, cut 1058.3, net
// 3029.2; by plain end areas, recomputed for the reference, 4100 and 1100.
TEST(EndAreas, ZeroEndsArePyramids) {
    const std::vector<double> at = {0, 50, 75, 100, 115, 150};
    const std::vector<SectionArea> fill = sections(at, {60, 50, 25, 5, 0, 0});
    const std::vector<SectionArea> cut = sections(at, {0, 0, 0, 10, 15, 30});
    const double filled = volume_by_end_areas(fill, ZeroEnds::Pyramids);
    const double dug = volume_by_end_areas(cut, ZeroEnds::Pyramids);
    EXPECT_NEAR(filled, 4087.5, 0.05);
    EXPECT_NEAR(dug, 1058.3, 0.05);
    EXPECT_NEAR(filled - dug, 3029.2, 0.05);
    EXPECT_NEAR(volume_by_end_areas(fill, ZeroEnds::Wedges), 4100, 1e-9);
    EXPECT_NEAR(volume_by_end_areas(cut, ZeroEnds::Wedges), 1100, 1e-9);
}

// TQ-04 survey question with working (printed): embankment 11 m wide, sides 1 in 2, heights 0.5, 1.5, 2.5 m
// over 150 m: areas b h + s h^2, prismoidal 3250, end areas 3450, correction 200.
TEST(EndAreas, EmbankmentByPrismoidAndByEndAreas) {
    const auto area = [](double h) { return 11 * h + 2 * h * h; };
    const PrismoidVolume prismoid =
        volume_by_prismoids(sections({0, 75, 150}, {area(0.5), area(1.5), area(2.5)}));
    EXPECT_NEAR(prismoid.volume, 3250, 0.5);
    EXPECT_EQ(prismoid.by_end_areas, 0);
    const double ends = volume_by_end_areas(sections({0, 150}, {area(0.5), area(2.5)}), ZeroEnds::Pyramids);
    EXPECT_NEAR(ends, 3450, 0.5);
    EXPECT_NEAR(level_section_correction(150, 2, 0.5, 2.5), 200, 0.5);
    EXPECT_NEAR(ends - level_section_correction(150, 2, 0.5, 2.5), prismoid.volume, 1e-9);
}

// TQ-06 study question: six areas 10 m apart. The page elides its answers; recomputed for the reference.
TEST(EndAreas, OddIntervalsCloseWithATrapezoid) {
    const std::vector<SectionArea> six =
        sections({0, 10, 20, 30, 40, 50}, {12.5, 16.0, 18.4, 21.0, 19.5, 17.0});
    EXPECT_NEAR(volume_by_end_areas(six, ZeroEnds::Pyramids), 896.5, 0.001);
    const std::vector<SectionArea> first(six.begin(), six.end() - 1);
    EXPECT_NEAR(volume_by_prismoids(first).volume, 722.667, 0.001);
    const PrismoidVolume all = volume_by_prismoids(six);
    EXPECT_NEAR(all.volume, 905.167, 0.001);
    EXPECT_NEAR(all.by_end_areas, 10, 1e-12);
}

TEST(EndAreas, UnequalIntervalsAreNoPrismoid) {
    const PrismoidVolume found = volume_by_prismoids(sections({0, 10, 25}, {1, 2, 3}));
    EXPECT_NEAR(found.volume, 15 + 37.5, 1e-12);
    EXPECT_NEAR(found.by_end_areas, 25, 1e-12);
}

TEST(EndAreas, WhatIsNoRowOfSections) {
    EXPECT_EQ(volume_by_end_areas({}, ZeroEnds::Wedges), 0);
    EXPECT_EQ(volume_by_prismoids(sections({7}, {3})).volume, 0);
    EXPECT_TRUE(std::isnan(volume_by_end_areas(sections({0, 0}, {1, 1}), ZeroEnds::Wedges)));
    EXPECT_TRUE(std::isnan(volume_by_prismoids(sections({0, 5}, {1, -1})).volume));
    EXPECT_TRUE(std::isnan(volume_by_end_areas(sections({0, NAN}, {1, 1}), ZeroEnds::Wedges)));
}

// The prismoid is exact for areas that are any quadratic or cubic of the chainage (Simpson's rule): held
// against the integral in closed form.
RC_GTEST_PROP(EndAreasProperty, PrismoidIsExactForCubicAreas, ()) {
    const auto some = [] { return *rc::gen::inRange(0, 1000) / 100.0; };
    const double c0 = some(), c1 = some(), c2 = some(), c3 = some() / 100, half = 0.1 + some();
    const auto area = [=](double x) { return c0 + x * (c1 + x * (c2 + x * c3)); };
    const auto integral = [=](double x) { return x * (c0 + x * (c1 / 2 + x * (c2 / 3 + x * c3 / 4))); };
    const double length = 4 * half;
    const std::vector<double> at = {0, half, 2 * half, 3 * half, length};
    const PrismoidVolume found =
        volume_by_prismoids(sections(at, {area(at[0]), area(at[1]), area(at[2]), area(at[3]), area(at[4])}));
    RC_ASSERT(found.by_end_areas == 0);
    RC_ASSERT(std::fabs(found.volume - integral(length)) <= 1e-9 * (1 + integral(length)));
}

}  // namespace fallwright
