#include "plan/goal.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {
namespace {

constexpr double mm = 1e-3;

Goal both_sides(double tolerance) {
    return {{-tolerance, tolerance}, usual_confidence};
}

// Quantiles of the standard normal distribution as any table of it prints them.
TEST(Goal, QuantilesAreThoseOfTheTables) {
    EXPECT_NEAR(normal_quantile(0.95), 1.6448536269514722, 1e-12);
    EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-12);
    EXPECT_NEAR(normal_quantile(0.025), -1.959963984540054, 1e-12);
    EXPECT_NEAR(normal_quantile(0.5), 0, 1e-12);
}

// dec-empty (to its tolerance of 1e-6 mm: it was searched for), and measurement model section 5 ("say before
// the work"): 10 mm either side.
TEST(Goal, BeforeTheWorkItIsSaidWhatTenMillimetresAskFor) {
    const Goal goal = both_sides(10 * mm);
    EXPECT_NEAR(goal.largest_sd(), 5.10213456805 * mm, 1e-6 * mm);
    EXPECT_NEAR(goal.largest_sd() * 1.959963984540054, 10 * mm, 1e-14);
    EXPECT_NEAR(goal.half_sd(), 3.0 * mm, 0.05 * mm);
    EXPECT_NEAR(10 * mm - 1.6448536 * goal.half_sd(), 5 * mm, 1e-9);
}

// dec-accept-10-2, -10-3, -10-5 and -5-1.7: derived, direct arithmetic.
TEST(Goal, WhatCanBeProvedIsTheExactAcceptanceLimit) {
    EXPECT_NEAR(provable(both_sides(10 * mm), 2 * mm).margin, 6.7102927461 * mm, 1e-12);
    EXPECT_NEAR(provable(both_sides(10 * mm), 3 * mm).margin, 5.06543167457 * mm, 1e-12);
    EXPECT_NEAR(provable(both_sides(10 * mm), 5 * mm).margin, 1.01893639702 * mm, 1e-12);
    EXPECT_NEAR(provable(both_sides(5 * mm), 1.7 * mm).margin, 2.2035624478 * mm, 1e-12);
}

TEST(Goal, TheWordsFollowTheUncertainty) {
    const Goal goal = both_sides(10 * mm);
    EXPECT_EQ(provable(goal, 3.0 * mm).proof, Proof::Half);
    EXPECT_EQ(provable(goal, 3.1 * mm).proof, Proof::Narrow);
    EXPECT_EQ(provable(goal, 5.10 * mm).proof, Proof::Narrow);
    EXPECT_EQ(provable(goal, 5.11 * mm).proof, Proof::Nothing);
    EXPECT_TRUE(std::isnan(provable(goal, 5.11 * mm).margin));
}

TEST(Goal, WithOneLimitOnlyTheGuardCanBeTold) {
    const Goal goal{{-5 * mm, Limits().above}, usual_confidence};
    const Provable can = provable(goal, 2 * mm);
    EXPECT_EQ(can.proof, Proof::OneSided);
    EXPECT_NEAR(can.guard, 2 * 1.6448536269514722 * mm, 1e-12);
    EXPECT_TRUE(std::isnan(goal.largest_sd()));
}

TEST(Goal, WithoutAToleranceOrAnUncertaintyNothingIsSaid) {
    EXPECT_EQ(provable(Goal{}, 2 * mm).proof, Proof::NoTolerance);
    EXPECT_EQ(provable(both_sides(10 * mm), NAN).proof, Proof::NoTolerance);
}

// A tolerance that lies off its middle is as wide as it is.
TEST(Goal, OnlyTheWidthOfATwoSidedToleranceCounts) {
    const Goal goal{{-15 * mm, 5 * mm}, usual_confidence};
    EXPECT_NEAR(provable(goal, 2 * mm).margin, 6.7102927461 * mm, 1e-12);
}

}  // namespace
}  // namespace fallwright
