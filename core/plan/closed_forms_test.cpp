#include "plan/closed_forms.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {
namespace {

constexpr double mm = 1e-3;

// plan-dmax: derived in the project's measurement model, direct arithmetic.
TEST(ClosedForms, APointMayLieAsFarFromItsBenchmarkAsTheTiltAllows) {
    Kit kit;
    kit.tilt_sd = 0.024 * mm;
    EXPECT_NEAR(longest_distance(kit, 5 * mm, 2), 76.4898322945, 1e-9);
    kit.benchmark_sd = 1 * mm;
    EXPECT_NEAR(longest_distance(kit, 10 * mm, 2), 191.485421551, 1e-8);
}

// plan-dmax-3: two readings alone cost more than is allowed.
TEST(ClosedForms, WhereTwoReadingsCostTooMuchNoDistanceIsShortEnough) {
    Kit kit;
    kit.tilt_sd = 0.024 * mm;
    EXPECT_TRUE(std::isnan(longest_distance(kit, 3 * mm, 2)));
    // 2 (1.2 mm)^2 / (1.5 mm)^2 = 1.28: the mean of two readings will do.
    EXPECT_EQ(readings_to_average(kit, 3 * mm, 2), 2);
    EXPECT_EQ(readings_to_average(kit, 5 * mm, 2), 1);
    kit.benchmark_sd = 2 * mm;
    EXPECT_EQ(readings_to_average(kit, 3 * mm, 2), 0);
}

TEST(ClosedForms, WithoutTiltDistanceCostsNothing) {
    EXPECT_TRUE(std::isinf(longest_distance(Kit{}, 5 * mm, 2)));
    EXPECT_TRUE(std::isinf(longest_balanced_sight(Kit{}, 5 * mm, 2)));
}

// plan-nopt-200: derived, two independent computing routes.
TEST(ClosedForms, ARunHasABestNumberOfSetups) {
    Kit kit;
    kit.tilt_sd = 0.015 * mm;
    const auto run = best_run(kit, 200);
    EXPECT_NEAR(run.best, 1.76776695297, 1e-10);
    EXPECT_NEAR(200 / run.best, 113.13708499, 1e-7);
    EXPECT_NEAR(run.best_sd, 3.19097753817 * mm, 1e-13);
    EXPECT_EQ(run.setups, 2);
    EXPECT_DOUBLE_EQ(run.sd, run_sd(kit, 200, 2));
    EXPECT_NEAR(run_sd(kit, 200, 1), 3.44673758792 * mm, 1e-13);
    EXPECT_NEAR(run_sd(kit, 200, 2), 3.20312347561 * mm, 1e-13);
    EXPECT_NEAR(run_sd(kit, 200, 3), 3.41174442185 * mm, 1e-13);
    EXPECT_NEAR(run_sd(kit, 200, 7), 4.63095176888 * mm, 1e-13);
    EXPECT_NEAR(run_sd(kit, 200, 10), 5.44977063738 * mm, 1e-13);
}

// Measurement model, section 7: 400 m at 0.03 mm/m.
TEST(ClosedForms, TheBestNumberIsFlat) {
    Kit kit;
    kit.tilt_sd = 0.03 * mm;
    const auto run = best_run(kit, 400);
    EXPECT_NEAR(run.best, 7.1, 0.05);
    EXPECT_NEAR(run.best_sd, 6.38 * mm, 0.005 * mm);
    EXPECT_EQ(run.setups, 7);
    for (const double n : {5.0, 6.0, 8.0, 9.0}) EXPECT_LT(run_sd(kit, 400, n), 1.04 * run.best_sd) << n;
}

// plan-opt-level: derived, two independent computing routes.
TEST(ClosedForms, AnOpticalLevelHasABestSight) {
    Kit kit;
    kit.reading_sd = 0.5 * mm;
    kit.sd_per_m = 0.015 * mm;
    const auto run = best_run(kit, 600);
    EXPECT_NEAR(run.best, 9, 1e-12);
    EXPECT_NEAR(600 / run.best / 2, 33.3333333333, 1e-9);
    EXPECT_NEAR(run.best_sd, 3 * mm, 1e-14);
    EXPECT_EQ(run.setups, 9);
    EXPECT_NEAR(run_sd(kit, 600, 5), 3.255764 * mm, 5e-7 * mm);
    EXPECT_NEAR(run_sd(kit, 600, 20), 3.467708 * mm, 5e-7 * mm);
}

// plan-sight-level: derived, direct arithmetic.
TEST(ClosedForms, ABalancedSightIsAsLongAsItsReadingAllows) {
    Kit kit;
    kit.reading_sd = 0.5 * mm;
    kit.sd_per_m = 0.015 * mm;
    EXPECT_NEAR(longest_balanced_sight(kit, 3 * mm, 2), 62.3609564462, 1e-9);
    EXPECT_TRUE(std::isnan(longest_balanced_sight(kit, 1 * mm, 2)));
}

// plan-2bm-30 and -90: derived, Monte Carlo agrees to 0.01 mm.
TEST(ClosedForms, ASecondBenchmarkHoldsTheTilt) {
    Kit kit;
    kit.tilt_sd = 0.03 * mm;
    kit.benchmark_sd = 1 * mm;
    const Between near = between_benchmarks(kit, 120, 30);
    EXPECT_NEAR(near.one, 2.16564078277 * mm, 1e-13);
    EXPECT_NEAR(near.free, 1.72191753577 * mm, 1e-13);
    EXPECT_NEAR(near.both, 1.69751863222 * mm, 1e-13);
    const Between far = between_benchmarks(kit, 120, 90);
    EXPECT_NEAR(far.one, 3.34215499341 * mm, 1e-13);
    EXPECT_NEAR(far.free, 1.72191753577 * mm, 1e-13);
    EXPECT_NEAR(far.both, 1.69751863222 * mm, 1e-13);
}

TEST(ClosedForms, BetweenBenchmarksTheLimitsOfTheTiltAgree) {
    Kit kit;
    kit.benchmark_sd = 1 * mm;
    kit.tilt_sd = 1e3;  // as good as nothing believed
    const Between loose = between_benchmarks(kit, 120, 30);
    EXPECT_NEAR(loose.both, loose.free, 1e-9);
    kit.tilt_sd = 1e-12;
    const Between tight = between_benchmarks(kit, 120, 30);
    kit.tilt_sd = 0;
    EXPECT_NEAR(tight.both, between_benchmarks(kit, 120, 30).both, 1e-9);
}

}  // namespace
}  // namespace fallwright
