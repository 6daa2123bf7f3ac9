#include "verdict/within.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {
namespace {

const double infinity = Limits().above;

// JCGM 106:2012, examples, from memory: the document prints 0.92 and 0.663.
TEST(Within, TheExamplesOfTheGuideComeOut) {
    EXPECT_NEAR(probability_within(-5.47, 0.05, {-infinity, -5.40}), 0.919243340766, 1e-12);
    EXPECT_NEAR(probability_within(13.6, 1.8, {12.5, 16.3}), 0.663, 5e-4);
}

// dec-accept: derived in the project's measurement model, direct arithmetic.
TEST(Within, AcceptanceLimitsAreThoseOfTheExactRule) {
    EXPECT_NEAR(probability_within(6.7102927461, 2, {-10, 10}), 0.95, 1e-9);
    EXPECT_NEAR(probability_within(5.06543167457, 3, {-10, 10}), 0.95, 1e-9);
    EXPECT_NEAR(probability_within(1.01893639702, 5, {-10, 10}), 0.95, 1e-9);
    EXPECT_NEAR(probability_within(2.2035624478, 1.7, {-5, 5}), 0.95, 1e-9);
    EXPECT_NEAR(probability_within(0, 5.10213456805, {-10, 10}), 0.95, 1e-9);
}

TEST(Within, BothSidesAreAlike) {
    for (const double x : {0.0, 3.0, 9.9, 12.0, 60.0})
        EXPECT_DOUBLE_EQ(probability_within(x, 2, {-10, 10}), probability_within(-x, 2, {-10, 10}));
}

TEST(Within, FarTailsKeepTheirDigits) {
    EXPECT_NEAR(probability_within(0, 1, {8, infinity}) / 6.220960574271785e-16, 1, 1e-9);
    EXPECT_NEAR(probability_within(0, 1, {-infinity, -8}) / 6.220960574271785e-16, 1, 1e-9);
}

TEST(Within, WithoutUncertaintyItIsYesOrNo) {
    EXPECT_EQ(probability_within(0.01, 0, {-0.01, 0.01}), 1);
    EXPECT_EQ(probability_within(0.0101, 0, {-0.01, 0.01}), 0);
}

TEST(Within, WhatIsNotKnownIsUntested) {
    EXPECT_TRUE(std::isnan(probability_within(NAN, 1, {-1, 1})));
    EXPECT_TRUE(std::isnan(probability_within(0, NAN, {-1, 1})));
    EXPECT_EQ(verdict_of(NAN, usual_confidence), Verdict::Untested);
}

TEST(Within, VerdictsGoByTheProbabilityAsRounded) {
    EXPECT_EQ(verdict_of(0.95, 0.95), Verdict::Within);
    EXPECT_EQ(verdict_of(0.94996, 0.95), Verdict::Within);
    EXPECT_EQ(verdict_of(0.94994, 0.95), Verdict::Undecided);
    EXPECT_EQ(verdict_of(0.05004, 0.95), Verdict::Outside);
    EXPECT_EQ(verdict_of(0.05006, 0.95), Verdict::Undecided);
    EXPECT_EQ(verdict_of(0.95, 0.99), Verdict::Undecided);
}

}  // namespace
}  // namespace fallwright
