#include "drain/section.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace fallwright::drain {

namespace {

using std::numbers::pi;

struct Elements {
    double depth, area, radius, top, perimeter;
};

}  // namespace

// HY-07: geometric elements of a circular section of unit bore, a table citing Chow (1959), Sturm (2001) and
// FHWA HDS-4; six printed places.
TEST(Section, ElementsOfTheHandbook) {
    constexpr std::array<Elements, 8> table = {{{0.05, 0.014681, 0.032551, 0.43589, 0.451027},
                                                {0.10, 0.040875, 0.06352, 0.6, 0.643501},
                                                {0.15, 0.073875, 0.092878, 0.714143, 0.795399},
                                                {0.55, 0.442616, 0.264886, 0.994987, 1.670964},
                                                {0.60, 0.492028, 0.277644, 0.979796, 1.772154},
                                                {0.65, 0.540418, 0.288148, 0.953939, 1.875489},
                                                {0.70, 0.58723, 0.296235, 0.916515, 1.982313},
                                                {0.75, 0.631852, 0.301687, 0.866025, 2.094395}}};
    for (const Elements& row : table) {
        const Wetted wet = wetted(1, row.depth);
        EXPECT_NEAR(wet.area, row.area, 1e-6) << row.depth;
        EXPECT_NEAR(wet.radius, row.radius, 1e-6) << row.depth;
        EXPECT_NEAR(wet.top, row.top, 1e-6) << row.depth;
        EXPECT_NEAR(wet.perimeter, row.perimeter, 1e-6) << row.depth;
    }
}

TEST(Section, EmptyHalfAndFull) {
    EXPECT_EQ(wetted(0.15, 0).area, 0);
    EXPECT_EQ(wetted(0.15, -1).radius, 0);
    EXPECT_DOUBLE_EQ(wetted(2, 1).area, pi / 2);
    EXPECT_DOUBLE_EQ(wetted(2, 1).radius, 0.5);
    EXPECT_DOUBLE_EQ(wetted(2, 1).top, 2);
    for (const double depth : {2.0, 5.0}) {
        EXPECT_DOUBLE_EQ(wetted(2, depth).area, pi);
        EXPECT_DOUBLE_EQ(wetted(2, depth).perimeter, 2 * pi);
        EXPECT_DOUBLE_EQ(wetted(2, depth).radius, 0.5);
        EXPECT_EQ(wetted(2, depth).top, 0);
    }
}

// A film at the bottom of a pipe is a segment of a parabola: area 2/3 of width times depth, to first order.
TEST(Section, ThinFilmKeepsItsDigits) {
    for (const double depth : {1e-15, 1e-12, 1e-9, 1e-6}) {
        const Wetted wet = wetted(1, depth);
        EXPECT_NEAR(wet.area / (wet.top * depth) * 1.5, 1, 1e-3 * std::sqrt(depth) + 1e-13) << depth;
        EXPECT_NEAR(wet.top / (2 * std::sqrt(depth)), 1, depth) << depth;
    }
}

// The radius is greatest where tan theta = theta; Camp's maximum of the velocity, y / D 0.8128 (HY-07).
TEST(Section, GreatestRadius) {
    const Wetted at = wetted_at_angle(1, fastest_angle);
    EXPECT_NEAR(std::tan(fastest_angle), fastest_angle, 1e-12);
    EXPECT_NEAR(depth_at_angle(1, fastest_angle), fastest_depth, 1e-15);
    EXPECT_GT(at.radius, wetted(1, fastest_depth - 1e-3).radius);
    EXPECT_GT(at.radius, wetted(1, fastest_depth + 1e-3).radius);
}

RC_GTEST_PROP(SectionProperty, AngleAndDepthAreOneSection, ()) {
    const double bore = *rc::gen::inRange(1, 4000) / 1000.0;
    const double depth = bore * (*rc::gen::inRange(1, 1000000) / 1e6);
    const Wetted wet = wetted(bore, depth);
    RC_ASSERT(std::fabs(depth_at_angle(bore, wet.angle) - depth) <= 1e-14 * bore);
    const Wetted again = wetted_at_angle(bore, wet.angle);
    RC_ASSERT(std::fabs(again.area - wet.area) <= 1e-13 * bore * bore);
    RC_ASSERT(std::fabs(again.top - wet.top) <= 1e-13 * bore);
}

// Water and air share the circle, and everything but the width grows with the depth.
RC_GTEST_PROP(SectionProperty, WaterAndAirShareTheCircle, ()) {
    // Parts of 2^20, so that the air's depth is exact too.
    const double filled = *rc::gen::inRange(1, 1 << 20) / 1048576.0;
    const Wetted water = wetted(1, filled), air = wetted(1, 1 - filled);
    RC_ASSERT(std::fabs(water.area + air.area - pi / 4) < 1e-14);
    RC_ASSERT(std::fabs(water.perimeter + air.perimeter - pi) < 1e-13);
    RC_ASSERT(std::fabs(water.top - air.top) < 1e-14);
    const Wetted more = wetted(1, filled + 1e-6);
    RC_ASSERT(more.area > water.area && more.perimeter > water.perimeter);
}

}  // namespace fallwright::drain
