#include <gtest/gtest.h>

#include <cmath>

#include "adjust/adjust.h"
#include "adjust/dense_reference.h"

namespace fallwright::adjust {
namespace {

using Terms = std::vector<Term>;

class Covariances : public testing::TestWithParam<int> {
  protected:
    Problem problem = dense::network(static_cast<std::uint64_t>(GetParam()), 12, 6);
    Solution solution = solve(problem);
    dense::Matrix inverse = dense::inverse(dense::normal_matrix(problem));
    dense::Draw draw{static_cast<std::uint64_t>(GetParam()) + 100};

    Terms sum() {
        Terms terms;
        const Column first = draw.below(problem.columns() / 2);
        for (Column k = 0; k < 4; ++k) terms.push_back({first + 3 * k, draw.uniform() - 0.5});
        return terms;
    }
    double size(const Terms& a, const Terms& b) const {
        return std::sqrt(dense::form(inverse, a, a) * dense::form(inverse, b, b));
    }
};

TEST_P(Covariances, VariancesAreTheDiagonalOfTheInverse) {
    for (std::size_t j = 0; j < problem.columns(); ++j)
        EXPECT_NEAR(solution.variance[j], inverse[j][j], 1e-10 * inverse[j][j]);
}

TEST_P(Covariances, TheVarianceOfASumIsThatOfTheInverse) {
    for (int times = 0; times < 50; ++times) {
        const Terms terms = sum();
        const double expected = dense::form(inverse, terms, terms);
        EXPECT_NEAR(solution.variance_of(terms), expected, 1e-10 * expected);
    }
}

TEST_P(Covariances, TheCovarianceOfTwoSumsIsThatOfTheInverse) {
    for (int times = 0; times < 50; ++times) {
        const Terms a = sum();
        const Terms b = sum();
        EXPECT_NEAR(solution.covariance_of(a, b), dense::form(inverse, a, b), 1e-10 * size(a, b));
    }
}

TEST_P(Covariances, TheProductOfTheirPartsIsTheCovarianceOfTwoSums) {
    for (int times = 0; times < 50; ++times) {
        const Terms a = sum();
        const Terms b = sum();
        const std::vector<Part> left = solution.parts_of(a);
        const std::vector<Part> right = solution.parts_of(b);
        double product = 0;
        for (const Part& x : left) {
            for (const Part& y : right) product += x.source == y.source ? x.coefficient * y.coefficient : 0;
        }
        EXPECT_NEAR(product, dense::form(inverse, a, b), 1e-10 * size(a, b));
    }
}

TEST_P(Covariances, AnyElementOfTheInverseCanBeHad) {
    for (std::size_t a = 0; a < problem.columns(); ++a)
        for (std::size_t b = 0; b <= a; ++b) {
            const double got = solution.covariance_of(static_cast<Column>(a), static_cast<Column>(b));
            EXPECT_NEAR(got, inverse[a][b], 1e-10 * std::sqrt(inverse[a][a] * inverse[b][b]));
        }
}

TEST_P(Covariances, RedundanciesAddUpToTheDegreesOfFreedomLessThoseOfPriors) {
    double rows = 0, priors = 0;
    for (const double redundancy : solution.redundancy) rows += redundancy;
    for (std::size_t j = 0; j < problem.columns(); ++j)
        if (problem.prior_sd[j] > 0)
            priors += 1 - solution.variance[j] / (problem.prior_sd[j] * problem.prior_sd[j]);
    EXPECT_NEAR(rows + priors, static_cast<double>(solution.dof), 1e-9);
}

INSTANTIATE_TEST_SUITE_P(Networks, Covariances, testing::Range(1, 9));

TEST(Covariance, AColumnCarriedWithAnotherOfWeakDatumKeepsItsDigits) {
    Problem problem;
    for (int k = 0; k < 3; ++k) problem.add_column();
    problem.add_prior(0, 0, 20);
    for (Column k = 0; k < 2; ++k) problem.add_row(Terms{{k + 1, 1.0}, {k, -1.0}}, 0, 0.001);
    const Solution solution = solve(problem);
    for (Column a = 0; a < 3; ++a)
        for (Column b = 0; b < 3; ++b) {
            const double expected = 400 + 1e-6 * std::min(a, b);
            EXPECT_NEAR(solution.covariance_of(a, b), expected, 1e-12 * expected);
        }
}

}  // namespace
}  // namespace fallwright::adjust
