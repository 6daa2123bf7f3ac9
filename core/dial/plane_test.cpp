#include "dial/plane.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "quantity/angle.h"

namespace fallwright {

namespace {

Heading bearing(double degrees) {
    const SinCos unit = sincos_degrees(degrees);
    return {true, unit.sin, unit.cos};
}

// Independent noise u of every level, in the grades along a heading.
Axes noise(const FittedPlane& plane, const Heading& heading, double u) {
    double main = 0;
    double cross = 0;
    for (const Axes& weight : plane.weight_in(heading)) {
        main += weight.main * weight.main;
        cross += weight.cross * weight.cross;
    }
    return {u * std::sqrt(main), u * std::sqrt(cross)};
}

double sum_of_squares(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value * value;
    return sum;
}

// z = a + b x + c y
struct Coefficients {
    double a, b, c;
};
Coefficients of(const FittedPlane& plane) {
    return {plane.at(0, 0), plane.slope.east, plane.slope.north};
}

const std::vector<PlanePoint> geo_1 = {{1000, 2000, 50.000}, {1060, 2000, 50.900}, {1000, 2080, 49.200}};

}  // namespace

// Quarters of the circle, whatever the sign of a nought.
TEST(Plane, BearingsAlongTheAxes) {
    EXPECT_EQ(bearing_of(1, 0.0), 90);
    EXPECT_EQ(bearing_of(1, -0.0), 90);
    EXPECT_EQ(bearing_of(-1, 0.0), 270);
    EXPECT_EQ(bearing_of(-1, -0.0), 270);
    EXPECT_EQ(bearing_of(0.0, 1), 0);
    EXPECT_EQ(bearing_of(-0.0, -1), 180);
}

// geo-1: three known points to the grades of both axes (derived for this project, direct arithmetic).
TEST(Plane, ThreePointsGiveBothGradesForABearing) {
    const Result<FittedPlane> plane = fit_plane(geo_1);
    ASSERT_TRUE(plane);
    EXPECT_NEAR(plane->slope.east, 0.015, 1e-12);
    EXPECT_NEAR(plane->slope.north, -0.010, 1e-12);
    EXPECT_NEAR(steepest(plane->slope), 0.0180277563773, 1e-12);
    EXPECT_NEAR(bearing_of(-plane->slope.east, -plane->slope.north), 303.690067526, 1e-8);
    const Axes grades = in_axes(plane->slope, bearing(30));
    EXPECT_NEAR(grades.main, -0.00116025403784, 1e-12);
    EXPECT_NEAR(grades.cross, 0.0179903810568, 1e-12);
    const Axes sd = noise(*plane, bearing(30), 0.002);
    EXPECT_NEAR(sd.main, 4.70610603e-05, 1e-12);
    EXPECT_NEAR(sd.cross, 3.5460948e-05, 1e-12);
    EXPECT_NEAR(sum_of_squares(plane->residual), 0, 1e-24);
}

// geo-1 again, the main axis turned elsewhere (section 3.4 of the same source).
TEST(Plane, OtherBearingsTurnTheSamePlane) {
    const Result<FittedPlane> plane = fit_plane(geo_1);
    ASSERT_TRUE(plane);
    const struct {
        double bearing, main, cross;
    } rows[] = {{0, -0.010, 0.015}, {90, 0.015, 0.010}, {123.5, 0.0180277, 0.0000598}};
    for (const auto& row : rows) {
        const Axes grades = in_axes(plane->slope, bearing(row.bearing));
        EXPECT_NEAR(grades.main, row.main, 5e-8) << row.bearing;
        EXPECT_NEAR(grades.cross, row.cross, 5e-8) << row.bearing;
    }
}

// geo-2: two points and a crossfall (derived for this project, direct arithmetic).
TEST(Plane, TwoPointsAndACrossfallTurnIntoTheAxes) {
    const PlanePoint from = {500, 500, 20.000};
    const PlanePoint to = {588.295, 546.947, 18.500};
    EXPECT_NEAR(bearing_of(to.e - from.e, to.n - from.n), 62.000, 5e-4);
    const Result<Slope> level_across = plane_of_two(from, to, 0);
    ASSERT_TRUE(level_across);
    Axes grades = in_axes(*level_across, bearing(50));
    EXPECT_NEAR(grades.main, -0.0146722, 6e-8);
    EXPECT_NEAR(grades.cross, -0.0031187, 6e-8);
    const Result<Slope> with_crossfall = plane_of_two(from, to, 0.025);
    ASSERT_TRUE(with_crossfall);
    grades = in_axes(*with_crossfall, bearing(50));
    EXPECT_NEAR(grades.main, -0.0198700, 6e-8);
    EXPECT_NEAR(grades.cross, 0.0213350, 6e-8);
}

// geo-3: readings at four points on a level plane (derived for this project, direct arithmetic).
TEST(Plane, ReadingsAtFourPointsGiveThePlaneAndItsUncertainty) {
    const Result<FittedPlane> plane = fit_plane(
        {{0, 0, -1.250}, {0, 30, -1.520}, {20, 30, -1.180}, {20, 0, -0.914}});  // e: right, n: ahead
    ASSERT_TRUE(plane);
    const Axes grades = in_axes(plane->slope, bearing(0));
    EXPECT_NEAR(grades.main, -0.00893333333, 1e-10);
    EXPECT_NEAR(grades.cross, 0.0169, 1e-12);
    const std::vector<double> residuals = {-0.001, 0.001, -0.001, 0.001};
    for (std::size_t i = 0; i < residuals.size(); ++i) EXPECT_NEAR(plane->residual[i], residuals[i], 1e-12);
    const Axes sd = noise(*plane, bearing(0), 0.0012);
    EXPECT_NEAR(sd.main, 4e-5, 1e-12);
    EXPECT_NEAR(sd.cross, 6e-5, 1e-12);
}

// geo-3b: the same ground with -1 % and +2 % dialled (derived for this project).
TEST(Plane, WhatIsDialledDuringTheReadingsAddsItself) {
    const std::vector<std::array<double, 3>> rows = {
        {0, 0, 1.250}, {30, 0, 1.220}, {30, 20, 1.280}, {0, 20, 1.314}};  // x, y, r
    std::vector<PlanePoint> points;
    points.reserve(rows.size());
    for (const auto& row : rows) points.push_back({row[1], row[0], -0.01 * row[0] + 0.02 * row[1] - row[2]});
    const Result<FittedPlane> plane = fit_plane(points);
    ASSERT_TRUE(plane);
    const Axes grades = in_axes(plane->slope, bearing(0));
    EXPECT_NEAR(grades.main, -0.00893333333, 1e-10);
    EXPECT_NEAR(grades.cross, 0.0169, 1e-12);
}

// geo-collinear-10, -2, -0.5 (derived for this project): 50 m along, the middle point off by e.
TEST(Plane, NearlyCollinearPointsTellTheFallAcrossBadly) {
    const struct {
        double off, weak;
    } rows[] = {{10, 0.000146969384567}, {2, 0.000734846922835}, {0.5, 0.00293938769134}};
    for (const auto& row : rows) {
        const Result<FittedPlane> plane = fit_plane({{0, 0, 0}, {25, row.off, 0}, {50, 0, 0}});
        ASSERT_TRUE(plane) << row.off;
        EXPECT_NEAR(0.0012 / plane->spread_across, row.weak, 1e-12) << row.off;
        EXPECT_NEAR(0.0012 / plane->spread_along, 3.3941125497e-05, 1e-12) << row.off;
    }
}

TEST(Plane, CollinearPointsAreRefusedHoweverLargeTheJob) {
    for (const double size : {1.0, 1000.0}) {
        const Result<FittedPlane> plane =
            fit_plane({{0, 0, 0}, {25 * size, 50 * size, 1}, {50 * size, 100 * size, 2}});
        ASSERT_FALSE(plane) << size;
        EXPECT_EQ(plane.finding().code, Code::DialCollinear);
    }
    EXPECT_FALSE(fit_plane({{0, 0, 0}, {50, 0, 1}}));
    EXPECT_FALSE(fit_plane({{3, 3, 0}, {3, 3, 1}, {3, 3, 2}}));
    EXPECT_FALSE(plane_of_two({3, 3, 0}, {3, 3, 1}, 0));
}

// PLN-01: z on x and y by least squares, six points. Source: regression worked example,
// https://myhomeworkhelp.com/multiple-regression/ (9.7, 1.3, 0.83; longer digits recomputed).
TEST(Plane, PublishedRegressionOfSixPoints) {
    const Result<FittedPlane> plane =
        fit_plane({{2, 1, 14}, {4, 2, 16}, {5, 1, 17}, {6, 3, 20}, {3, 5, 18}, {1, 2, 12}});
    ASSERT_TRUE(plane);
    const Coefficients z = of(*plane);
    EXPECT_NEAR(z.a, 9.7027, 1e-4);
    EXPECT_NEAR(z.b, 1.2956, 1e-4);
    EXPECT_NEAR(z.c, 0.8269, 1e-4);
    EXPECT_NEAR(sum_of_squares(plane->residual), 1.56672, 1e-4);
    EXPECT_NEAR(std::sqrt(sum_of_squares(plane->residual) / 3), 0.7227, 1e-4);
}

// PLN-02: ten points. Source: A-star maths notes 4805, linear regression on two independent variables.
TEST(Plane, PublishedRegressionOfTenPoints) {
    const Result<FittedPlane> plane = fit_plane({{4, 20, 1},
                                                 {10, 6, 4},
                                                 {15, 2, 5},
                                                 {12, 8, 4},
                                                 {8, 9, 3},
                                                 {16, 8, 4},
                                                 {5, 12, 2},
                                                 {7, 15, 1},
                                                 {9, 10, 4},
                                                 {10, 10, 2}});
    ASSERT_TRUE(plane);
    const Coefficients z = of(*plane);
    EXPECT_NEAR(z.a, 4.19061, 5e-5);
    EXPECT_NEAR(z.b, 0.08627, 5e-5);
    EXPECT_NEAR(z.c, -0.20188, 5e-5);
    const double sd = std::sqrt(sum_of_squares(plane->residual) / 7);
    EXPECT_NEAR(sd, 0.68079, 5e-5);
    // Along north and to its right: main is y, cross is x.
    const Axes each = noise(*plane, bearing(0), sd);
    EXPECT_NEAR(each.cross, 0.0965, 5e-5);
    EXPECT_NEAR(each.main, 0.07689, 5e-5);
}

// PLN-03: exact data. Source: S. C. Chapra, R. P. Canale, Numerical Methods for Engineers; from memory.
TEST(Plane, ExactDataLeavesNoResiduals) {
    const Result<FittedPlane> plane =
        fit_plane({{0, 0, 5}, {2, 1, 10}, {2.5, 2, 9}, {1, 3, 0}, {4, 6, 3}, {7, 2, 27}});
    ASSERT_TRUE(plane);
    const Coefficients z = of(*plane);
    EXPECT_NEAR(z.a, 5, 1e-12);
    EXPECT_NEAR(z.b, 4, 1e-12);
    EXPECT_NEAR(z.c, -3, 1e-12);
    EXPECT_NEAR(sum_of_squares(plane->residual), 0, 1e-24);
}

// geo-Lmin (derived for this project).
TEST(Plane, TheShortestBaselineForAGradientToTwoHundredthsOfAPerCent) {
    EXPECT_NEAR(shortest_baseline(0.0012, 0.0002), 8.48528137424, 1e-9);
}

TEST(Plane, AGradientIsWorthSettingOnceItIsThreeOfItsSds) {
    EXPECT_TRUE(worth_setting(-0.0125, 0.0017));  // 1 m apart, 1 in 80
    EXPECT_FALSE(worth_setting(-0.0125, 0.0068));
    EXPECT_TRUE(worth_setting(0, 0.0001));  // nearly level, well known
    EXPECT_FALSE(worth_setting(0, 0.001));
}

RC_GTEST_PROP(Plane, TurningThereAndBackChangesNothing, ()) {
    const auto pick = [](int range) { return *rc::gen::inRange(-range, range + 1) / 1000.0; };
    const Axes line = {pick(100), pick(100)};
    const Heading along = bearing(pick(360000));
    const Heading main = bearing(pick(360000));
    const Axes back = turned(turned(line, along, main), main, along);
    RC_ASSERT(std::fabs(back.main - line.main) < 1e-15);
    RC_ASSERT(std::fabs(back.cross - line.cross) < 1e-15);
}

RC_GTEST_PROP(Plane, PointsOfAPlaneGiveThatPlane, ()) {
    const auto pick = [](int range) { return *rc::gen::inRange(-range, range + 1) / 1000.0; };
    const Slope slope = {pick(100), pick(100)};
    std::vector<PlanePoint> points = {{0, 0, 0}, {40, 0, 0}, {0, 30, 0}};
    const auto more = *rc::gen::inRange(0, 10);
    for (int i = 0; i < more; ++i) points.push_back({pick(50000), pick(50000), 0});
    for (PlanePoint& point : points) {
        point.e += 400000;
        point.n += 5600000;
        point.level = 50 + slope.east * (point.e - 400000) + slope.north * (point.n - 5600000);
    }
    const Result<FittedPlane> plane = fit_plane(points);
    RC_ASSERT(static_cast<bool>(plane));
    RC_ASSERT(std::fabs(plane->slope.east - slope.east) < 1e-9);
    RC_ASSERT(std::fabs(plane->slope.north - slope.north) < 1e-9);
}

}  // namespace fallwright
