#include "plan/outlook.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "plan/air.h"

namespace fallwright {
namespace {

// plan-kappa-mdb: derived, direct arithmetic. 11 points over 100 m that are known to lie on one straight
// line, the laser in the middle on the line, readings of 1.2 mm; level, gradient and cone are sought. The
// source has the factor unrounded (0.1 % false alarms, 80 % power: the quantiles of 0.9995 and 0.8), the
// contract as 4.13.
TEST(Outlook, TheLeastConeThatShowsIsThatOfTheFormula) {
    constexpr double reading_sd = 0.0012;
    adjust::Problem problem;
    const adjust::Column level = problem.add_column();
    const adjust::Column gradient = problem.add_column();
    const adjust::Column cone = problem.add_column();
    for (int i = 0; i < 11; ++i) {
        const double s = 10.0 * i - 50;
        const std::array<adjust::Term, 3> terms = {{{level, 1}, {gradient, s}, {cone, std::fabs(s)}}};
        problem.add_row(terms, 0, reading_sd);
    }
    const adjust::Solution solution = adjust::solve(problem);
    const double sd = std::sqrt(solution.variance[static_cast<std::size_t>(cone)]);
    const double factor = normal_quantile(0.9995) + normal_quantile(0.8);
    EXPECT_NEAR(factor, 4.13, 0.005);
    EXPECT_NEAR(factor * sd * 1000, 0.0934054, 1e-6);
    EXPECT_DOUBLE_EQ(least_slip(sd, 1), 4.13 * sd);
}

// A lone reading and its repeat share the redundancy; a quarter of it left makes the least slip twice as
// large.
TEST(Outlook, TheLeastSlipGrowsAsTheRedundancyFalls) {
    EXPECT_DOUBLE_EQ(least_slip(0.001, 1), 0.00413);
    EXPECT_DOUBLE_EQ(least_slip(0.001, 0.25), 0.00826);
    EXPECT_TRUE(std::isnan(least_slip(0.001, 0)));
}

// chk-acclim: University of Genoa, test field pages citing ISO 17123.
TEST(Air, AnInstrumentStandsTwoMinutesForEachDegree) {
    EXPECT_DOUBLE_EQ(warm_up_minutes(15), 30);
    EXPECT_DOUBLE_EQ(warm_up_minutes(-15), 30);
}

// mag-refr--0.5-100 and -50, from memory of the formula: the beam rises by 2.16757 and 0.54189 mm against a
// straight line; the usual air (k 0.13) takes 0.10202 and 0.02551 mm down.
TEST(Air, HotGroundLiftsTheLongerSight) {
    EXPECT_NEAR(hot_ground_lift(0, 100), 0.00216757152743 + 0.13 * 100 * 100 / (2 * 6371000.0), 1e-9);
    EXPECT_NEAR(hot_ground_lift(0, 50), 0.000541892881856 + 0.13 * 50 * 50 / (2 * 6371000.0), 1e-9);
    EXPECT_DOUBLE_EQ(hot_ground_lift(40, 40), 0);
}

}  // namespace
}  // namespace fallwright
