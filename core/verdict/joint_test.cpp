#include "verdict/joint.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "verdict/lattice.h"
#include "verdict/normal_table.h"

namespace fallwright {
namespace {

constexpr double printed = 1e-4;
constexpr double pi = 3.141592653589793;
const double open = Limits().above;

// One cause shared by all, so that any two have that correlation; sd 1.
std::vector<LimitedSum> equally_correlated(std::int32_t count, double correlation, Limits limits) {
    std::vector<LimitedSum> sums;
    sums.reserve(static_cast<std::size_t>(count));
    for (std::int32_t i = 0; i < count; ++i)
        sums.push_back({limits, {{0, std::sqrt(correlation)}, {1 + i, std::sqrt(1 - correlation)}}});
    return sums;
}

TEST(Joint, NoneAreAllWithin) {
    EXPECT_EQ(joint_probability({}), 1);
}

TEST(Joint, OneHasItsOwnProbability) {
    EXPECT_NEAR(joint_probability(equally_correlated(1, 0.5, {-1, 2})), probability_within(0, 1, {-1, 2}),
                1e-12);
}

TEST(Joint, IndependentOnesMultiply) {
    std::vector<LimitedSum> sums;
    double product = 1;
    for (std::int32_t i = 0; i < 50; ++i) {
        const Limits limits = {-2 - 0.01 * i, 3 - 0.01 * i};
        sums.push_back({limits, {{i, 1.0}}});
        product *= probability_within(0, 1, limits);
    }
    EXPECT_NEAR(joint_probability(sums), product, 1e-6);
}

TEST(Joint, FullyCorrelatedOnesAreAsProbableAsTheTightest) {
    std::vector<LimitedSum> sums;
    sums.reserve(20);
    for (std::int32_t i = 0; i < 20; ++i) sums.push_back({{-1.0 - i, 2.0 + i}, {{0, 1.0}}});
    EXPECT_NEAR(joint_probability(sums), probability_within(0, 1, {-1, 2}), 5e-4);
}

// The orthant probability of normal quantities with all correlations 1/2 is 1 / (n + 1): any textbook of
// order statistics (the one that all share is the largest of n + 1 with equal chance).
TEST(Joint, OrthantsOfCorrelationOneHalfAreOneInOneMoreThanTheirNumber) {
    for (const int n : {2, 3, 10, 100})
        EXPECT_NEAR(joint_probability(equally_correlated(n, 0.5, {-open, 0})), 1.0 / (n + 1), 2e-5) << n;
}

// Closed form of three dimensions (Sheppard; any textbook): 1/8 + (asin r12 + asin r13 + asin r23) / 4 pi.
TEST(Joint, OrthantsOfThreeAreTheClosedForm) {
    const Limits below = {-open, 0};
    const std::vector<LimitedSum> sums = {{below, {{0, 0.8}, {1, 0.5}, {2, std::sqrt(0.11)}}},
                                          {below, {{0, 0.6}, {1, -0.7}, {3, std::sqrt(0.15)}}},
                                          {below, {{0, -0.3}, {1, 0.9}, {4, std::sqrt(0.10)}}}};
    const double r12 = 0.48 - 0.35;
    const double r13 = -0.24 + 0.45;
    const double r23 = -0.18 - 0.63;
    const double exact = 0.125 + (std::asin(r12) + std::asin(r13) + std::asin(r23)) / (4 * pi);
    EXPECT_NEAR(joint_probability(sums), exact, printed);
}

// SciPy 1.x, multivariate_normal.cdf at 1e-10: two quantities within one sd, correlation 0.64.
TEST(Joint, TwoAgreeWithTheBivariateDistribution) {
    EXPECT_NEAR(joint_probability(equally_correlated(2, 0.64, {-1, 1})), 0.5214568860465549, 1e-6);
}

// What groups of a few share in common and what two groups share.
std::vector<LimitedSum> groups() {
    std::vector<LimitedSum> sums;
    for (std::int32_t i = 0; i < 60; ++i) {
        const double along = (i % 20) / 10.0 - 1;
        std::vector<adjust::Part> parts = {{i / 20, 0.6}, {3 + i / 20, 0.4 * along}, {6, 0.3}, {7 + i, 0.5}};
        sums.push_back({{-2.2 - 0.01 * i, 2.8 - 0.01 * i}, std::move(parts)});
    }
    return sums;
}

TEST(Joint, TheOrderOfQuantitiesChangesNothingThatShows) {
    std::vector<LimitedSum> turned = groups();
    std::reverse(turned.begin(), turned.end());
    EXPECT_NEAR(joint_probability(groups()), joint_probability(turned), 5e-4);
}

TEST(Joint, SignsTurnedRoundChangeNothingThatShows) {
    std::vector<LimitedSum> mirrored = groups();
    for (LimitedSum& sum : mirrored) {
        sum.limits = {-sum.limits.above, -sum.limits.below};
        for (adjust::Part& part : sum.parts) part.coefficient = -part.coefficient;
    }
    EXPECT_NEAR(joint_probability(groups()), joint_probability(mirrored), 5e-4);
}

TEST(Joint, TheSameInputGivesTheSameNumber) {
    EXPECT_EQ(joint_probability(groups()), joint_probability(groups()));
}

TEST(Joint, NeverMoreThanTheLeastProbableOne) {
    double least = 1;
    for (const LimitedSum& sum : groups()) {
        double variance = 0;
        for (const adjust::Part& part : sum.parts) variance += part.coefficient * part.coefficient;
        least = std::min(least, probability_within(0, std::sqrt(variance), sum.limits));
    }
    EXPECT_LT(joint_probability(groups()), least);
}

TEST(Joint, OneThatIsSurelyOutsideMakesItNothing) {
    std::vector<LimitedSum> sums = groups();
    sums[7].limits = {9, 10};
    EXPECT_EQ(joint_probability(sums), 0);
}

TEST(Joint, WhatIsCertainCountsAsItIs) {
    EXPECT_EQ(joint_probability({{{-1, 1}, {}}}), 1);
    EXPECT_EQ(joint_probability({{{0.5, 1}, {}}}), 0);
}

TEST(NormalTable, IsTheDistribution) {
    const NormalTable table;
    for (int i = 0; i < 5121; ++i) {
        const double x = -9.5 + 0.00371 * i;
        EXPECT_NEAR(table.cdf(x), normal_cdf(x), 2e-10) << x;
    }
}

TEST(NormalTable, TheQuantileIsTheReverse) {
    const NormalTable table;
    const auto turned_back = [&table](double p) {
        EXPECT_NEAR(table.cdf(table.quantile(p)), p, 1e-14 + 1e-9 * p) << p;
    };
    for (int i = 0; i < 26; ++i) turned_back(1e-9 * std::pow(1.7, i));
    for (int i = 1; i < 578; ++i) turned_back(0.00173 * i);
    EXPECT_EQ(table.quantile(0), -NormalTable::reach);
    EXPECT_EQ(table.quantile(1), NormalTable::reach);
}

TEST(Lattice, EveryCoordinateIsSpreadEvenly) {
    Lattice lattice(most_dimensions);
    constexpr std::size_t count = 4096;
    std::vector<Lanes> points;
    std::vector<double> mean(most_dimensions, 0.0);
    std::vector<double> square(most_dimensions, 0.0);
    for (std::size_t i = 0; i < count; i += lanes) {
        lattice.next(points);
        for (std::size_t d = 0; d < most_dimensions; ++d) {
            for (const double x : points[d]) {
                ASSERT_TRUE(x >= 0 && x <= 1);
                mean[d] += x / count;
                square[d] += x * x / count;
            }
        }
    }
    for (std::size_t d = 0; d < most_dimensions; ++d) {
        EXPECT_NEAR(mean[d], 0.5, 1e-6);
        EXPECT_NEAR(square[d], 1.0 / 3, 1e-3);
    }
}

}  // namespace
}  // namespace fallwright
