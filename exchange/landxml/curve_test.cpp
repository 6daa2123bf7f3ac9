#include "exchange/landxml/curve.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright::landxml {
namespace {

double length_of(EastNorth from, const std::vector<EastNorth>& corners) {
    double sum = 0;
    for (const EastNorth& to : corners) {
        sum += std::hypot(to.e - from.e, to.n - from.n);
        from = to;
    }
    return sum;
}

// Chords as long as the curve (radius x angle), none farther than a millimetre from it.
TEST(Curve, ChordsAreAsLongAsTheCurveAndNear) {
    for (const double radius : {0.5, 6.0, 25.0, 400.0, 5000.0}) {
        for (const double angle : {0.01, 0.7, 1.5708, 3.0, 5.5}) {
            for (const bool clockwise : {true, false}) {
                const EastNorth center{651000, 313000};
                const double from = 0.3, to = clockwise ? from - angle : from + angle;
                const auto at = [&](double way) {
                    return EastNorth{center.e + radius * std::cos(way), center.n + radius * std::sin(way)};
                };
                const EastNorth start = at(from);
                const auto corners = chords_of({start, center, at(to), clockwise}, 0.001);
                ASSERT_GE(corners.size(), 2U);
                EXPECT_NEAR(length_of(start, corners), radius * angle, 2e-6);
                EastNorth last = start;
                for (const EastNorth& corner : corners) {
                    const auto away = [&](double e, double n) {
                        return std::fabs(std::hypot(e - center.e, n - center.n) - radius);
                    };
                    EXPECT_LT(away(corner.e, corner.n), 0.001);
                    EXPECT_LT(away((corner.e + last.e) / 2, (corner.n + last.n) / 2), 0.001);
                    last = corner;
                }
                EXPECT_NEAR(last.e, at(to).e, 1e-9);
            }
        }
    }
}

TEST(Curve, WhatIsNoCircleGivesNothing) {
    EXPECT_TRUE(chords_of({{0, 10}, {0, 0}, {10.1, 0}, true}, 0.001).empty());
    EXPECT_TRUE(chords_of({{0, 0}, {0, 0}, {0, 0}, true}, 0.001).empty());
    EXPECT_TRUE(chords_of({{0, 1e8}, {0, 0}, {1e8, 0}, true}, 1e-6).empty());
}

}  // namespace
}  // namespace fallwright::landxml
