#include "fall/cross_check.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {

namespace {

// 1.200 near, 1.600 far, 40 m apart: the ground falls by 1 in 100.
FallCheckInput input(double shown, double gradient_sd = 4e-5, double shown_sd = 3e-5) {
    return {1.2, 1.6, 40, gradient_sd, shown, shown_sd};
}

}  // namespace

TEST(CrossCheck, AgreesWithinItsUncertaintyAndNotBeyond) {
    // hypot(4e-5, 3e-5) = 5e-5; 95 %, two-sided: 1.96 of it.
    EXPECT_NEAR(check_fall(input(-0.01)).sd, 5e-5, 1e-18);
    EXPECT_TRUE(check_fall(input(-0.01 + 9.7e-5)).agrees);
    EXPECT_FALSE(check_fall(input(-0.01 - 9.9e-5)).agrees);
    EXPECT_NEAR(check_fall(input(-0.0102)).disagreement, 0.0002, 1e-15);
}

TEST(CrossCheck, EachExplanationReconcilesTheThree) {
    const FallCheck check = check_fall(input(-0.008));
    EXPECT_NEAR(check.gradient, -0.01, 1e-15);
    EXPECT_NEAR(check.distance_wanted, 50, 1e-12);
    EXPECT_NEAR(check.difference_wanted, -0.32, 1e-15);
    EXPECT_NEAR(check.ahead_wanted, 10, 1e-12);
    EXPECT_NEAR(pivoted_gradient(1.2, 1.6, 40, check.ahead_wanted), -0.008, 1e-15);
    // The plane falls from the head: 10 m ahead of it the mark of the level plane lies above it.
    EXPECT_NEAR(check.near_off, -0.08, 1e-12);
}

TEST(CrossCheck, OfALevelDisplayNothingButReadingsCanBeWanted) {
    const FallCheck check = check_fall(input(0));
    EXPECT_TRUE(std::isnan(check.distance_wanted) && std::isnan(check.ahead_wanted) &&
                std::isnan(check.near_off));
    EXPECT_EQ(check.difference_wanted, 0);
    EXPECT_FALSE(check.agrees);
}

// design.md section 3: for near point a ahead of the laser and L to the far point: far reading minus
// difference x (L + a) / L at both.
TEST(CrossCheck, TheOnePassMarkIsReadAtBothPointsOfATiltedPlane) {
    for (const double ahead : {-5.0, 0.0, 12.0}) {
        const double mark = one_pass_mark(1.2, 1.6, 40, ahead);
        constexpr double gradient = (1.2 - 1.6) / 40;
        // On the plane tilted about the head by the ground's gradient.
        EXPECT_NEAR(mark, 1.2 + gradient * ahead, 1e-12);
        EXPECT_NEAR(mark, 1.6 + gradient * (ahead + 40), 1e-12);
    }
    // The laser over the near point: its figure stays.
    EXPECT_NEAR(one_pass_mark(1.2, 1.6, 40, 0), 1.2, 1e-15);
    EXPECT_NEAR(pivoted_gradient(1.2, 1.6, 40, 0), -0.01, 1e-15);
}

}  // namespace fallwright
