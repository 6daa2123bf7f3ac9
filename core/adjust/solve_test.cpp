#include <gtest/gtest.h>

#include <cmath>

#include "adjust/adjust.h"
#include "adjust/dense_reference.h"

namespace fallwright::adjust {
namespace {

using Terms = std::vector<Term>;

TEST(Solve, NothingAtAllIsSolved) {
    const Solution solution = solve(Problem{});
    EXPECT_EQ(solution.observations, 0);
    EXPECT_EQ(solution.unknowns, 0);
    EXPECT_EQ(solution.dof, 0);
    EXPECT_EQ(solution.chi2, 0);
    EXPECT_TRUE(solution.nulls.empty());
    EXPECT_EQ(solution.variance_of(Terms{}), 0);
}

TEST(Solve, RowsWithoutTermsAreWhollyRedundant) {
    Problem problem;
    problem.add_row(Terms{}, 0.004, 0.002);
    const Solution solution = solve(problem);
    EXPECT_DOUBLE_EQ(solution.residual[0], 0.004);
    EXPECT_DOUBLE_EQ(solution.redundancy[0], 1);
    EXPECT_DOUBLE_EQ(solution.chi2, 4);
    EXPECT_EQ(solution.dof, 1);
}

TEST(Solve, WithoutRowsPriorsComeBackAndCountForNothing) {
    Problem problem;
    problem.add_prior(problem.add_column(), 0.25, 0.5);
    problem.add_column();
    const Solution solution = solve(problem);
    EXPECT_DOUBLE_EQ(solution.x[0], 0.25);
    EXPECT_DOUBLE_EQ(solution.variance[0], 0.25);
    EXPECT_FALSE(solution.determined(1));
    EXPECT_EQ(solution.x[1], 0);
    EXPECT_EQ(solution.observations, 0);
    EXPECT_EQ(solution.unknowns, 0);
    EXPECT_EQ(solution.dof, 0);
    EXPECT_EQ(solution.chi2, 0);
}

// The mean of n readings of equal weight: sd / sqrt(n), redundancy 1 - 1/n (any textbook of least squares).
TEST(Solve, RepeatedReadingsAreAveraged) {
    Problem problem;
    const Column level = problem.add_column();
    for (const double y : {1.001, 1.003, 1.004, 1.000}) problem.add_row(Terms{{level, 1.0}}, y, 0.002);
    const Solution solution = solve(problem);
    EXPECT_NEAR(solution.x[0], 1.002, 1e-15);
    EXPECT_NEAR(solution.variance[0], 1e-6, 1e-18);
    EXPECT_EQ(solution.dof, 3);
    // (-1 1 2 -2 mm) / 2 mm: the sum of squares is 10 / 4.
    EXPECT_NEAR(solution.chi2, 2.5, 1e-9);
    for (const double redundancy : solution.redundancy) EXPECT_NEAR(redundancy, 0.75, 1e-14);
}

TEST(Solve, APriorCountsOnlyIfARowCarriesItsColumn) {
    Problem problem;
    const Column read = problem.add_column();
    const Column idle = problem.add_column();
    problem.add_prior(read, 0, 1);
    problem.add_prior(idle, 0.5, 1);
    problem.add_row(Terms{{read, 1.0}, {idle, 0.0}}, 1, 1);
    const Solution solution = solve(problem);
    EXPECT_EQ(solution.observations, 2);
    EXPECT_EQ(solution.unknowns, 1);
    EXPECT_EQ(solution.dof, 1);
    EXPECT_DOUBLE_EQ(solution.x[read], 0.5);
    EXPECT_DOUBLE_EQ(solution.x[idle], 0.5);
    EXPECT_DOUBLE_EQ(solution.chi2, 0.5);
}

// The same network with its private columns folded and written out, for each row one of sd 3 mm.
TEST(Solve, FoldedColumnsEqualExplicitOnes) {
    const Problem plain = dense::network(11, 6, 5);
    Problem folded, explicit_columns;
    for (std::size_t j = 0; j < plain.columns(); ++j)
        for (Problem* problem : {&folded, &explicit_columns}) {
            const Column column = problem->add_column();
            if (plain.prior_sd[j] > 0) problem->add_prior(column, plain.prior_value[j], plain.prior_sd[j]);
        }
    for (std::size_t i = 0; i < plain.rows(); ++i) {
        Terms terms;
        for (std::size_t p = plain.start[i]; p < plain.start[i + 1]; ++p)
            terms.push_back({plain.column[p], plain.coefficient[p]});
        folded.add_row(terms, plain.y[i], plain.sd[i], 0.003 * 0.003, 1);
        const Column own = explicit_columns.add_column();
        explicit_columns.add_prior(own, 0, 0.003);
        terms.push_back({own, i % 2 == 0 ? 1.0 : -1.0});
        explicit_columns.add_row(terms, plain.y[i], plain.sd[i]);
    }
    const Solution a = solve(folded);
    const Solution b = solve(explicit_columns);
    EXPECT_EQ(a.observations, b.observations);
    EXPECT_EQ(a.unknowns, b.unknowns);
    EXPECT_EQ(a.dof, b.dof);
    EXPECT_NEAR(a.chi2, b.chi2, 1e-10 * b.chi2);
    for (std::size_t j = 0; j < a.x.size(); ++j) {
        EXPECT_NEAR(a.x[j], b.x[j], 1e-14);
        EXPECT_NEAR(a.variance[j], b.variance[j], 1e-10 * b.variance[j]);
    }
    for (std::size_t i = 0; i < plain.rows(); ++i) {
        EXPECT_NEAR(a.residual[i], b.residual[i], 1e-14);
        EXPECT_NEAR(a.redundancy[i], b.redundancy[i], 1e-11);
    }
}

TEST(Solve, ARowThatNothingChecksHasNoRedundancy) {
    Problem problem;
    const Column level = problem.add_column();
    problem.add_row(Terms{{level, 1.0}}, 0.01, 0.001);
    const Solution solution = solve(problem);
    EXPECT_EQ(solution.redundancy[0], 0);
    EXPECT_NEAR(solution.residual[0], 0, 1e-17);
    EXPECT_EQ(solution.dof, 0);
}

// A run of n equal steps from a benchmark: variances add, prior^2 + k step^2.
TEST(Solve, AlongALineVariancesAdd) {
    constexpr int steps = 100000;
    Problem problem;
    Column last = problem.add_column();
    problem.add_prior(last, 0, 0.002);
    for (int k = 0; k < steps; ++k) {
        const Column next = problem.add_column();
        problem.add_row(Terms{{next, 1.0}, {last, -1.0}}, 1e-5, 0.001);
        last = next;
    }
    const Solution solution = solve(problem);
    EXPECT_EQ(solution.dof, 0);
    for (int k = 0; k <= steps; k += 1000) {
        EXPECT_NEAR(solution.x[k], 1e-5 * k, 1e-11);
        const double expected = std::sqrt(4e-6 + 1e-6 * k);
        EXPECT_NEAR(std::sqrt(solution.variance[k]), expected, 1e-8 * expected);
    }
}

// A loop of four steps that closes 4 mm high, held by a benchmark known to 10 m only: a quarter of the
// closure goes to each step, and the levels stand where the prior puts them.
TEST(Solve, ANetworkHangingFromAWeakPriorKeepsItsDigits) {
    Problem problem;
    for (int k = 0; k < 4; ++k) problem.add_column();
    problem.add_prior(0, 2.5, 10);
    for (Column k = 0; k < 4; ++k)
        problem.add_row(Terms{{(k + 1) % 4, 1.0}, {k, -1.0}}, k == 3 ? 0.004 : 0.0, 0.001);
    const Solution solution = solve(problem);
    EXPECT_TRUE(solution.nulls.empty());
    for (Column k = 0; k < 4; ++k) {
        EXPECT_NEAR(solution.x[k], 2.5 - 0.001 * k, 1e-14);
        EXPECT_NEAR(solution.residual[k], 0.001, 1e-15);
        EXPECT_NEAR(solution.redundancy[k], 0.25, 1e-12);
        // Two ways round: 1 / (1/k + 1/(4-k)) steps.
        const double expected = 100 + 1e-6 * k * (4 - k) / 4.0;
        EXPECT_NEAR(solution.variance[k], expected, 1e-12 * expected);
    }
    EXPECT_NEAR(solution.variance_of(Terms{{2, 1.0}, {0, -1.0}}), 1e-6, 1e-17);
}

TEST(Solve, TiltsWithTightPriorsAreNoMoreThanTheirPriors) {
    Problem problem;
    const Column level = problem.add_column();
    const Column tilt = problem.add_column();
    problem.add_prior(level, 0, 1e-4);
    problem.add_prior(tilt, 0, 2e-5);
    problem.add_row(Terms{{level, 1.0}, {tilt, 50.0}}, 0.003, 0.001);
    const Solution solution = solve(problem);
    // Three variances share the 3 mm: 1e-8, (50 x 2e-5)^2 = 1e-6, 1e-6.
    const double total = 1e-8 + 1e-6 + 1e-6;
    EXPECT_NEAR(solution.x[level], 0.003 * 1e-8 / total, 1e-17);
    EXPECT_NEAR(solution.x[tilt], 0.003 * 50 * 4e-10 / total, 1e-17);
    EXPECT_NEAR(solution.residual[0], 0.003 * 1e-6 / total, 1e-16);
    EXPECT_NEAR(solution.redundancy[0], 1e-6 / total, 1e-12);
    EXPECT_NEAR(solution.chi2, 0.003 * 0.003 / total, 1e-12);
}

TEST(Solve, TheOrderOfRowsAndColumnsChangesNothing) {
    const Problem problem = dense::network(5, 20, 6);
    const auto size = static_cast<Column>(problem.columns());
    Problem turned;
    for (Column j = size; j-- > 0;) {
        turned.add_column();
        if (problem.prior_sd[j] > 0)
            turned.add_prior(size - 1 - j, problem.prior_value[j], problem.prior_sd[j]);
    }
    for (std::size_t i = problem.rows(); i-- > 0;) {
        Terms terms;
        for (std::size_t p = problem.start[i]; p < problem.start[i + 1]; ++p)
            terms.push_back({size - 1 - problem.column[p], problem.coefficient[p]});
        turned.add_row(terms, problem.y[i], problem.sd[i]);
    }
    const Solution a = solve(problem);
    const Solution b = solve(turned);
    for (Column j = 0; j < size; ++j) {
        EXPECT_NEAR(a.x[j], b.x[size - 1 - j], 1e-14);
        EXPECT_NEAR(a.variance[j], b.variance[size - 1 - j], 1e-11 * a.variance[j]);
    }
}

TEST(Solve, TheSameProblemGivesTheSameBits) {
    const Problem problem = dense::network(6, 30, 6);
    const Solution a = solve(problem);
    const Solution b = solve(problem);
    EXPECT_EQ(a.x, b.x);
    EXPECT_EQ(a.variance, b.variance);
    EXPECT_EQ(a.redundancy, b.redundancy);
}

// The second step takes back what the factorisation lost: columns of sizes 1 to 1e12 as in a cubic through
// levels, y exactly on it.
TEST(Solve, BadlyScaledColumnsAreRefined) {
    Problem problem;
    for (int k = 0; k < 4; ++k) problem.add_column();
    for (int i = 0; i < 40; ++i) {
        const double x = 250.0 * i;
        problem.add_row(Terms{{0, 1.0}, {1, x}, {2, x * x}, {3, x * x * x}},
                        1 + 0.5 * x - 0.25 * x * x + 0.125 * x * x * x, 1);
    }
    const Solution solution = solve(problem);
    EXPECT_NEAR(solution.x[0], 1, 2e-3);  // y reaches 1e11, whose last bit is 1e-5
    EXPECT_NEAR(solution.x[1], 0.5, 1e-6);
    EXPECT_NEAR(solution.x[2], -0.25, 1e-9);
    EXPECT_NEAR(solution.x[3], 0.125, 1e-13);
}

}  // namespace
}  // namespace fallwright::adjust
