#include "adjust/statistics.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace fallwright::adjust {

namespace {

// Factor by which a standard deviation of that many degrees of freedom may exceed its true value, one-sided
// 5 %.
double factor_of_sd(double dof) {
    return std::sqrt(chi_square_quantile(0.95, dof) / dof);
}
double ratio_of_variances(double dof) {
    return variance_ratio_quantile(0.975, dof, dof);
}
// Student's t, two-sided 5 %.
double students_t(double dof) {
    return std::sqrt(variance_ratio_quantile(0.95, 1, dof));
}
// Of the normal distribution, two-sided.
double two_sided_normal(double alpha) {
    return std::sqrt(chi_square_quantile(1 - alpha, 1));
}

}  // namespace

// Reference chk-quantiles-32 and -38 (computed; the degrees of freedom from memory of ISO 17123-6 and -2).
TEST(Statistics, QuantilesOfTheFieldProcedures) {
    EXPECT_NEAR(chi_square_quantile(0.95, 32), 46.1942595203, 1e-8);
    EXPECT_NEAR(factor_of_sd(32), 1.20148683306, 1e-10);
    EXPECT_NEAR(ratio_of_variances(32), 2.02474873872, 1e-9);
    EXPECT_NEAR(1 / ratio_of_variances(32), 0.493888441997, 1e-9);
    EXPECT_NEAR(students_t(32), 2.03693334346, 1e-9);
    EXPECT_NEAR(chi_square_quantile(0.95, 38), 53.383540623, 1e-8);
    EXPECT_NEAR(factor_of_sd(38), 1.18525525369, 1e-10);
    EXPECT_NEAR(ratio_of_variances(38), 1.9070036537, 1e-9);
    EXPECT_NEAR(1 / ratio_of_variances(38), 0.524382844292, 1e-9);
    EXPECT_NEAR(students_t(38), 2.02439416458, 1e-9);
}

// Reference ISO-01: constants of the full test of a level (from memory, recomputed there).
TEST(Statistics, ConstantsOfTheFullTestOfALevel) {
    EXPECT_NEAR(chi_square_quantile(0.95, 38), 53.38, 0.005);
    EXPECT_NEAR(factor_of_sd(38), 1.19, 0.005);
    EXPECT_NEAR(ratio_of_variances(38), 1.91, 0.005);
    EXPECT_NEAR(1 / ratio_of_variances(38), 0.52, 0.005);
    EXPECT_NEAR(students_t(38), 2.02, 0.005);
    EXPECT_NEAR(students_t(38) / std::sqrt(10.0), 0.64, 0.005);
}

// Reference ISO-03 (recomputed).
TEST(Statistics, CriticalValuesForOtherDegreesOfFreedom) {
    struct Row {
        double dof, factor, ratio, t;
    };
    constexpr std::array<Row, 12> rows = {{{5, 1.488, 7.146, 2.571},
                                           {8, 1.392, 4.433, 2.306},
                                           {9, 1.371, 4.026, 2.262},
                                           {10, 1.353, 3.717, 2.228},
                                           {16, 1.282, 2.761, 2.120},
                                           {18, 1.266, 2.596, 2.101},
                                           {20, 1.253, 2.464, 2.086},
                                           {24, 1.232, 2.269, 2.064},
                                           {28, 1.215, 2.130, 2.048},
                                           {32, 1.201, 2.025, 2.037},
                                           {38, 1.185, 1.907, 2.024},
                                           {44, 1.172, 1.820, 2.015}}};
    for (const Row& row : rows) {
        EXPECT_NEAR(factor_of_sd(row.dof), row.factor, 0.0006) << row.dof;
        EXPECT_NEAR(ratio_of_variances(row.dof), row.ratio, 0.0006) << row.dof;
        EXPECT_NEAR(students_t(row.dof), row.t, 0.0006) << row.dof;
    }
}

// Reference STAT-01: C. D. Ghilani, P. R. Wolf, Adjustment Computations, problem 5.12 as quoted (recomputed).
TEST(Statistics, TwoReferenceVariances) {
    EXPECT_NEAR(1.15 / 0.89, 1.292, 0.001);
    EXPECT_NEAR(variance_ratio_quantile(0.975, 24, 24), 2.269, 0.001);
    EXPECT_NEAR(chi_square_quantile(0.025, 24), 12.401, 0.001);
    EXPECT_NEAR(chi_square_quantile(0.975, 24), 39.364, 0.001);
    EXPECT_NEAR(chi_square_quantile(0.95, 24), 36.415, 0.001);
}

// Reference STAT-02: W. Baarda's parameters (from memory, quantiles recomputed): the size that a test of
// level alpha finds with that power.
TEST(Statistics, NonCentralityOfTheSmallestDetectableError) {
    const double power = two_sided_normal(0.4);  // 80 % one-sided
    EXPECT_NEAR(two_sided_normal(0.001), 3.2905, 0.001);
    EXPECT_NEAR(two_sided_normal(0.05), 1.96, 0.001);
    EXPECT_NEAR(two_sided_normal(0.01), 2.5758, 0.001);
    EXPECT_NEAR(two_sided_normal(0.001) + power, 4.132, 0.001);
    EXPECT_NEAR(two_sided_normal(0.05) + power, 2.802, 0.001);
    EXPECT_NEAR(two_sided_normal(0.01) + power, 3.417, 0.001);
    EXPECT_NEAR(std::pow(two_sided_normal(0.001) + power, 2), 17.07, 0.005);
}

TEST(Statistics, ARatioAndItsInverseAreTheSameQuestion) {
    EXPECT_NEAR(variance_ratio_cdf(1.7, 5, 12) + variance_ratio_cdf(1 / 1.7, 12, 5), 1, 1e-12);
    EXPECT_EQ(variance_ratio_cdf(0, 5, 12), 0);
    EXPECT_NEAR(variance_ratio_cdf(variance_ratio_quantile(0.3, 3, 1000), 3, 1000), 0.3, 1e-10);
}

}  // namespace fallwright::adjust
