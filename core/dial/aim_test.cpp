#include "dial/aim.h"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/angle.h"

namespace fallwright {

namespace {

// The plane of a body turned clockwise, exactly: the point as the turned body sees it.
double exactly(const Axes& grades, double u, double v, double degrees) {
    const SinCos turn = sincos_degrees(degrees);
    const double ahead = u * turn.cos + v * turn.sin;
    const double right = v * turn.cos - u * turn.sin;
    return grades.main * (ahead - u) + grades.cross * (right - v);
}

}  // namespace

// prop-yaw-50-0, -0-50, -50-30 (derived for this project): 1 degree clockwise, main 1 %, cross 2 %.
TEST(Aim, ADegreeBesideTheAimRaisesPointsAsMuch) {
    const struct {
        double u, v, exact, linear;
    } rows[] = {{50, 0, -0.0175285588591, -0.0174532925199},
                {0, 50, 0.00857389837503, 0.00872664625997},
                {50, 30, -0.0123842198341, -0.012217304764}};
    const Axes grades = {0.01, 0.02};
    for (const auto& row : rows) {
        EXPECT_NEAR(exactly(grades, row.u, row.v, 1), row.exact, 1e-7);
        // Second order in: what is left is of third order, 2e-6 m.
        EXPECT_NEAR(raised_by_turn(grades, row.u, row.v, one_degree), row.exact, 2e-6);
        EXPECT_NEAR((raised_by_turn(grades, row.u, row.v, one_degree) -
                     raised_by_turn(grades, row.u, row.v, -one_degree)) /
                        2,
                    row.linear, 1e-7);
    }
}

TEST(Aim, TheCostIsThatOfTheWorseWay) {
    const Axes grades = {0.01, 0.02};
    const double one = raised_by_turn(grades, 0, 50, one_degree);
    const double other = raised_by_turn(grades, 0, 50, -one_degree);
    EXPECT_NEAR(cost_of_turn(grades, 0, 50, one_degree), std::fmax(std::fabs(one), std::fabs(other)), 1e-15);
}

// Finding 7 of the same source: 1 degree with 2 % across changes the grade ahead by 0.035 %, 17.5 mm at 50 m;
// with none, 5 degrees cost 0.4 % of the grade.
TEST(Aim, ItIsTheCrossGradeThatCosts) {
    EXPECT_NEAR(cost_of_turn({0.01, 0.02}, 50, 0, one_degree), 0.0175, 5e-5);
    EXPECT_NEAR(cost_of_turn({0.01, 0}, 1, 0, 5 * one_degree) / 0.01, 0.0038, 5e-5);
}

// prop-misalign-a, -b: the gradient beside the main axis and its change per radian (derived, simulated).
TEST(Aim, TheGradientBesideTheMainAxisIsATurnOfBoth) {
    EXPECT_NEAR(gradient_beside({0.01, 0.02}, 0), 0.01, 1e-15);
    EXPECT_NEAR(change_beside({0.01, 0.02}, 0), 0.02, 1e-15);
    EXPECT_NEAR(gradient_beside({0.015, -0.02}, 30), 0.00299038105677, 1e-13);
    EXPECT_NEAR(change_beside({0.015, -0.02}, 30), -0.0248205080757, 1e-13);
}

// prop-misalign-2nd: no cross grade, 5 degrees (derived for this project; simulation 6.15e-5, -3.79e-5).
TEST(Aim, WithoutACrossGradeTheSecondOrderIsAllThereIs) {
    const AimEffect effect = aim_effect({0.01, 0}, 5 * one_degree, 3e-5);
    EXPECT_NEAR(effect.bias, -3.80771774733e-05, 1e-12);
    EXPECT_NEAR(effect.sd, 6.16420545462e-05, 1e-12);
}

}  // namespace fallwright
