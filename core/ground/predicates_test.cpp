#include "ground/predicates.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>

namespace fallwright::ground {

namespace {

constexpr std::int32_t far = largest_coordinate;

TEST(Predicates, SideIsExactAcrossTheWholeRange) {
    EXPECT_EQ(side({0, 0}, {far, far}, {far / 2, far / 2}), 0);
    EXPECT_EQ(side({0, 0}, {far, far}, {far / 2, far / 2 + 1}), far);
    EXPECT_EQ(side({0, 0}, {far, 0}, {far, far}), std::int64_t{far} * far);
}

TEST(Predicates, CornersOfTheLargestSquareLieOnOneCircle) {
    const Place a{0, 0}, b{far, 0}, c{far, far}, d{0, far};
    EXPECT_EQ(circle_sign(a, b, c, d), 0);
    EXPECT_EQ(circle_sign(a, b, c, {1, far}), 1);
    EXPECT_EQ(circle_sign(a, b, {far, far - 1}, d), -1);
}

// 25^2 = 7^2 + 24^2 = 15^2 + 20^2: twelve whole points on a circle of 25, scaled up to the range.
TEST(Predicates, OneMillimetreOffALargeCircleIsSeen) {
    const std::int32_t scale = far / 50, middle = far / 2;
    const auto at = [&](int e, int n) { return Place{middle + e * scale, middle + n * scale}; };
    const Place a = at(-25, 0), b = at(7, -24), c = at(15, 20);
    for (const Place on : {at(24, 7), at(-15, 20), at(-20, -15), at(0, 25), at(-7, -24)}) {
        EXPECT_EQ(circle_sign(a, b, c, on), 0);
        const int step = on.n > middle ? 1 : -1;
        EXPECT_EQ(circle_sign(a, b, c, {on.e, on.n + step}), -1);
        EXPECT_EQ(circle_sign(a, b, c, {on.e, on.n - step}), 1);
    }
}

TEST(Predicates, OnOneCircleTheFirstDecides) {
    const Place south_west{0, 0}, south_east{10, 0}, north_east{10, 10}, north_west{0, 10};
    EXPECT_FALSE(in_circle(south_west, north_east, north_west, south_east));
    EXPECT_TRUE(in_circle(south_east, north_west, south_west, north_east));
}

RC_GTEST_PROP(Predicates, TurningAndMirroringKeepTheSign, ()) {
    const auto draw = [] { return *rc::gen::inRange(0, far); };
    std::array<Place, 4> p;
    for (Place& each : p) each = {draw(), draw()};
    const int sign = circle_sign(p[0], p[1], p[2], p[3]);
    RC_ASSERT(circle_sign(p[1], p[2], p[0], p[3]) == sign);
    RC_ASSERT(circle_sign(p[1], p[0], p[2], p[3]) == -sign);
    RC_ASSERT(circle_sign(p[3], p[1], p[2], p[0]) == -sign);
    const auto turned = [](Place at) { return Place{far - at.n, at.e}; };
    RC_ASSERT(circle_sign(turned(p[0]), turned(p[1]), turned(p[2]), turned(p[3])) == sign);
}

}  // namespace

}  // namespace fallwright::ground
