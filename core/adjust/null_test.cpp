#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "adjust/adjust.h"

namespace fallwright::adjust {
namespace {

using Terms = std::vector<Term>;

void step(Problem& problem, Column from, Column to, double rise = 0) {
    problem.add_row(Terms{{to, 1.0}, {from, -1.0}}, rise, 0.001);
}

TEST(NullVectors, AnUnreadColumnIsNamedAlone) {
    Problem problem;
    const Column read = problem.add_column();
    const Column unread = problem.add_column();
    problem.add_row(Terms{{read, 1.0}}, 0.5, 0.001);
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), 1);
    ASSERT_EQ(solution.nulls[0].moves.size(), 1);
    EXPECT_EQ(solution.nulls[0].moves[0].column, unread);
    EXPECT_EQ(solution.nulls[0].moves[0].coefficient, 1);
    EXPECT_TRUE(solution.determined(read));
    EXPECT_FALSE(solution.determined(unread));
    EXPECT_EQ(solution.unknowns, 1);
    EXPECT_EQ(solution.dof, 0);
}

TEST(NullVectors, WithoutADatumAllLevelsMoveTogether) {
    Problem problem;
    for (int k = 0; k < 3; ++k) problem.add_column();
    step(problem, 0, 1, 0.1);
    step(problem, 1, 2, 0.2);
    step(problem, 2, 0, -0.303);
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), 1);
    ASSERT_EQ(solution.nulls[0].moves.size(), 3);
    for (Column k = 0; k < 3; ++k) {
        EXPECT_EQ(solution.nulls[0].moves[k].column, k);
        EXPECT_NEAR(solution.nulls[0].moves[k].coefficient, 1, 1e-12);
        EXPECT_FALSE(solution.determined(k));
    }
    EXPECT_EQ(solution.dof, 1);
    for (const double residual : solution.residual) EXPECT_NEAR(residual, -0.001, 1e-15);
    for (const double redundancy : solution.redundancy) EXPECT_NEAR(redundancy, 1 / 3.0, 1e-12);
}

TEST(NullVectors, DifferencesOfUndeterminedLevelsAreDetermined) {
    Problem problem;
    for (int k = 0; k < 3; ++k) problem.add_column();
    step(problem, 0, 1);
    step(problem, 1, 2);
    const Solution solution = solve(problem);
    const Terms difference{{2, 1.0}, {0, -1.0}};
    EXPECT_NEAR(solution.variance_of(difference), 2e-6, 1e-18);
    EXPECT_NEAR(solution.covariance_of(difference, Terms{{1, 1.0}, {0, -1.0}}), 1e-6, 1e-18);
    EXPECT_TRUE(std::isnan(solution.variance_of(Terms{{1, 1.0}})));
    EXPECT_TRUE(std::isnan(solution.covariance_of(difference, Terms{{1, 1.0}})));
    EXPECT_TRUE(std::isnan(solution.covariance_of(0, 1)));
}

TEST(NullVectors, EachLoosePartHasItsOwnAndTheRestStands) {
    Problem problem;
    for (int k = 0; k < 6; ++k) problem.add_column();
    problem.add_prior(0, 0, 0.002);
    step(problem, 0, 1);
    step(problem, 2, 3);
    step(problem, 4, 5);
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), 2);
    EXPECT_EQ(solution.nulls[0].moves.front().column, 2);
    EXPECT_EQ(solution.nulls[0].moves.back().column, 3);
    EXPECT_EQ(solution.nulls[1].moves.front().column, 4);
    EXPECT_EQ(solution.nulls[1].moves.back().column, 5);
    EXPECT_NEAR(solution.variance[1], 5e-6, 1e-17);
    EXPECT_TRUE(std::isnan(solution.variance[2]));
}

TEST(NullVectors, TheLargestComponentIsOne) {
    Problem problem;
    const Column p = problem.add_column();
    const Column q = problem.add_column();
    problem.add_row(Terms{{p, 1.0}, {q, 3.0}}, 0.01, 0.001);
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), 1);
    EXPECT_NEAR(solution.nulls[0].moves[0].coefficient, 1, 1e-15);
    EXPECT_NEAR(solution.nulls[0].moves[1].coefficient, -1 / 3.0, 1e-15);
}

TEST(NullVectors, ATiltSeenFromOneDistanceOnlyMovesWithTheHeight) {
    Problem problem;
    const Column height = problem.add_column();
    const Column tilt = problem.add_column();
    const Column point = problem.add_column();
    problem.add_prior(point, 0, 0.001);
    for (int k = 0; k < 3; ++k)
        problem.add_row(Terms{{height, 1.0}, {tilt, 40.0}, {point, -1.0}}, 0.001 * k, 0.001);
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), 1);
    EXPECT_FALSE(solution.determined(height));
    EXPECT_FALSE(solution.determined(tilt));
    EXPECT_TRUE(solution.determined(point));
    EXPECT_NEAR(solution.variance[point], 1e-6, 1e-17);
    EXPECT_NEAR(solution.variance_of(Terms{{height, 1.0}, {tilt, 40.0}}), 1e-6 + 1e-6 / 3, 1e-16);
    EXPECT_EQ(solution.dof, 2);
}

// A pivot on the unit diagonal is about (row sd / prior sd)^2 / 2 here: 1e-3 against 30 m is above the limit
// of 1e-10, against 1 km below.
TEST(NullVectors, APriorTooWeakToBearOnTheRowsIsNone) {
    for (const double sd : {30.0, 1000.0}) {
        Problem problem;
        for (int k = 0; k < 2; ++k) problem.add_column();
        problem.add_prior(0, 0, sd);
        step(problem, 0, 1);
        const Solution solution = solve(problem);
        EXPECT_EQ(solution.nulls.size(), sd > 100 ? 1 : 0);
        EXPECT_EQ(solution.determined(1), sd < 100);
        if (sd < 100) {
            EXPECT_NEAR(solution.variance[1], sd * sd + 1e-6, 1e-9);
        }
    }
}

TEST(NullVectors, ManyThousandLoosePartsAreFoundInOneGo) {
    constexpr int parts = 20000;
    Problem problem;
    const Column shared = problem.add_column();
    for (int k = 0; k < parts; ++k) {
        const std::array<Column, 2> at{problem.add_column(), problem.add_column()};
        for (int times = 0; times < 2; ++times)
            problem.add_row(Terms{{at[0], 1.0}, {at[1], -1.0}, {shared, 10.0 * times}}, 0.001, 0.001);
    }
    const Solution solution = solve(problem);
    ASSERT_EQ(solution.nulls.size(), parts);
    for (int k = 0; k < parts; ++k) {
        ASSERT_EQ(solution.nulls[k].moves.size(), 2);
        EXPECT_EQ(solution.nulls[k].moves[0].column, 1 + 2 * k);
    }
    EXPECT_TRUE(solution.determined(shared));
    // Each part gives the difference of its two readings: sd sqrt(2) mm over 10.
    EXPECT_NEAR(solution.variance[shared], 2e-8 / parts, 1e-18);
    EXPECT_EQ(solution.dof, parts - 1);
}

}  // namespace
}  // namespace fallwright::adjust
