// The reference car against published matrices, closed forms and figures computed for the reference.
#include "evenness/quarter_car.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <utility>

namespace fallwright {

namespace {

constexpr double km = 1000;

void expect_matrix(double dx, const std::array<std::array<double, 4>, 4>& st, double relative) {
    const CarStep step = car_step(dx);
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j)
            EXPECT_NEAR(step.st[i][j], st[i][j], relative * std::fabs(st[i][j])) << dx << ": " << i << j;
    }
}

void expect_driven(double dx, const std::array<double, 4>& pr, double relative) {
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(car_step(dx).pr[i], pr[i], relative * pr[i]) << dx;
}

std::vector<double> heights(double length, double dx, double (*height)(double)) {
    std::vector<double> found;
    for (int i = 0; i * dx < length + dx / 2; ++i) found.push_back(height(i * dx));
    return found;
}

double triangle(double x) {
    return x <= 1 || x >= 3 ? 0 : 0.010 * (1 - std::fabs(x - 2));
}

double step(double x) {
    return x < 4.9 ? 0 : 0.010;
}

std::vector<double> random_heights(int count) {
    std::vector<double> found;
    found.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) found.push_back(*rc::gen::inRange(-20000, 20001) / 1e6);
    return found;
}

}  // namespace

// IR-02: Technical Paper 46, 0.25 m at 80 km/h, as transcribed in several public source files (two of which
// misprint ST44 and PR1). The published figures were worked in single precision: PR1 lost digits.
TEST(QuarterCar, MatricesOfAQuarterMetreAsPublished) {
    expect_matrix(0.25,
                  {{{0.9966071, 0.01091514, -0.002083274, 0.0003190145},
                    {-0.5563044, 0.9438768, -0.8324718, 0.05064701},
                    {0.02153176, 0.002126763, 0.7508714, 0.008221888},
                    {3.335013, 0.3376467, -39.12762, 0.4347564}}},
                  4e-7);
    expect_driven(0.25, {0.005476107, 1.388776, 0.2275968, 35.79262}, 2e-5);
    expect_driven(0.25, {0.005476206, 1.388777, 0.2275969, 35.79262}, 4e-7);  // worked out for the reference
}

// IR-03: the same paper, 0.1 m and 0.2 m.
TEST(QuarterCar, MatricesOfOneAndTwoTenthsAsPublished) {
    expect_matrix(0.1,
                  {{{0.9994014, 0.004442351, 0.0002188854, 5.72179e-05},
                    {-0.2570548, 0.975036, 0.007966216, 0.02458427},
                    {0.003960378, 0.0003814527, 0.9548048, 0.004055587},
                    {1.687312, 0.1638951, -19.34264, 0.7948701}}},
                  1e-6);
    expect_driven(0.1, {0.0003793992, 0.2490886, 0.04123478, 17.65532}, 1e-3);
    expect_matrix(0.2,
                  {{{0.9977588, 0.008780606, -0.0006436089, 0.0002127641},
                    {-0.4660258, 0.9535856, -0.4602074, 0.04352945},
                    {0.01448438, 0.001418428, 0.8332105, 0.007105564},
                    {2.908761, 0.2901964, -33.84164, 0.5574984}}},
                  1e-6);
    expect_driven(0.2, {0.002885245, 0.9262331, 0.1523053, 30.93289}, 1e-3);
}

// A road of one slope for ever: the car rides at that slope, so each row's columns of zs and zu and the drive
// add up to 1, 0, 1, 0 (stated with IR-03).
TEST(QuarterCar, RowsAddUp) {
    for (const double dx : {0.05, 0.1, 0.25, 0.3048, 0.5}) {
        const CarStep step = car_step(dx);
        for (std::size_t i = 0; i < 4; ++i)
            EXPECT_NEAR(step.st[i][0] + step.st[i][2] + step.pr[i], i % 2 == 0 ? 1 : 0, 1e-11) << dx;
    }
}

// IR-05: N 401, 20 mm/m, from memory and by the definition.
TEST(QuarterCar, AUniformGradeHasNone) {
    std::vector<double> grade;
    for (int i = 0; i <= 400; ++i) grade.push_back(100 + 0.020 * 0.25 * i);
    EXPECT_NEAR(QuarterCar(0.25).index(grade) * km, 0, 1e-9);
}

// IR-07: a triangular bump and a step, computed for the reference with the published coefficients, from rest.
TEST(QuarterCar, BumpAndStepAsComputedForTheReference) {
    constexpr std::array<double, 3> length = {25, 50, 100};
    constexpr std::array<double, 3> of_triangle = {1.40026, 0.71006, 0.35525};
    constexpr std::array<double, 3> of_step = {1.29965, 0.68945, 0.34567};
    const QuarterCar car(0.25);
    const auto mean = [&car](const std::vector<double>& profile) {
        double sum = 0;
        const std::vector<double> moved = car.motion(profile, CarState{});
        for (const double each : moved) sum += std::fabs(each);
        return sum / static_cast<double>(moved.size()) * km;
    };
    for (std::size_t i = 0; i < length.size(); ++i) {
        EXPECT_NEAR(mean(heights(length.at(i), 0.25, triangle)), of_triangle.at(i), 0.0005);
        EXPECT_NEAR(mean(heights(length.at(i), 0.25, step)), of_step.at(i), 0.0005);
        // It begins level, so the usual beginning is rest.
        EXPECT_NEAR(car.index(heights(length.at(i), 0.25, triangle)) * km, of_triangle.at(i), 0.0005);
    }
    constexpr std::array<std::pair<double, double>, 7> at = {{{1.25, -2.22121},
                                                              {1.5, -6.58811},
                                                              {2, -11.26812},
                                                              {2.5, 5.43691},
                                                              {3, 18.89012},
                                                              {4, -6.53303},
                                                              {5, 1.74619}}};
    const std::vector<double> moved = car.motion(heights(25, 0.25, triangle));
    for (const auto& [x, figure] : at)
        EXPECT_NEAR(moved.at(static_cast<std::size_t>(x / 0.25) - 1) * km, figure, 0.0005) << x;
}

// IR-04: the gain of a sine of slope, from the transfer function of the same equations, worked out for the
// reference; peaks and half gains agree with what is remembered of the Little Book of Profiling.
TEST(QuarterCar, WavelengthsAreMetAsTheTransferFunctionSays) {
    constexpr std::array<std::pair<double, double>, 12> gains = {{{0.01, 0.0316},
                                                                  {0.02, 0.1366},
                                                                  {0.033, 0.4434},
                                                                  {0.05, 1.234},
                                                                  {0.065, 1.5349},
                                                                  {0.1, 1.2597},
                                                                  {0.2, 1.1697},
                                                                  {0.3, 1.3587},
                                                                  {0.42, 1.6678},
                                                                  {0.5, 1.5335},
                                                                  {0.8, 0.4786},
                                                                  {1.0, 0.2731}}};
    constexpr double pi = 3.14159265358979;
    const double dx = 0.005;
    for (const auto& [cycles, gain] : gains) {
        std::vector<double> sine;
        for (int i = 0; i * dx < 400; ++i) sine.push_back(0.01 * std::sin(2 * pi * cycles * i * dx));
        const std::vector<double> moved = QuarterCar(dx).motion(sine);
        double high = 0;  // after the beginning has died away
        for (std::size_t i = moved.size() / 2; i < moved.size(); ++i) high = std::fmax(high, moved[i]);
        EXPECT_NEAR(high / (0.01 * 2 * pi * cycles), gain, 0.0005) << cycles;
    }
}

TEST(QuarterCar, CloseProfilesAreAveragedOverATyre) {
    EXPECT_EQ(averaged_samples(0.05), 5U);
    EXPECT_EQ(averaged_samples(0.1), 3U);
    EXPECT_EQ(averaged_samples(0.2), 1U);
    EXPECT_EQ(averaged_samples(0.25), 1U);
    EXPECT_EQ(averaged_samples(0.5), 1U);
    // Of a ripple of one sample up, one down a fifth is left in the mean of five.
    std::vector<double> ripple;
    ripple.reserve(401);
    for (int i = 0; i < 401; ++i) ripple.push_back(i % 2 == 0 ? 0.001 : -0.001);
    const QuarterCar car(0.05);
    double plain = 0;
    const std::vector<double> moved = car.motion(std::vector<double>(ripple.begin(), ripple.end() - 4));
    for (const double each : moved) plain += std::fabs(each) / static_cast<double>(moved.size());
    EXPECT_NEAR(car.index(ripple), plain / 5, 1e-12);
}

TEST(QuarterCar, NothingToGoBy) {
    EXPECT_TRUE(std::isnan(QuarterCar(0.25).index({})));
    EXPECT_TRUE(std::isnan(QuarterCar(0.25).index({1})));
    EXPECT_TRUE(std::isnan(QuarterCar(0.05).index({1, 2, 3, 4, 5})));
    EXPECT_TRUE(std::isnan(QuarterCar(0.25).index_of_noise(1)));
}

RC_GTEST_PROP(QuarterCar, IndexScalesWithTheProfileAndForgetsAPlane, ()) {
    const double dx = *rc::gen::element(0.05, 0.1, 0.25, 0.3048, 0.5);
    const std::vector<double> profile = random_heights(120);
    const double factor = *rc::gen::inRange(1, 50) / 10.0;
    std::vector<double> scaled, turned, tilted;
    for (std::size_t i = 0; i < profile.size(); ++i) {
        scaled.push_back(factor * profile[i]);
        turned.push_back(-profile[i]);
        tilted.push_back(profile[i] + 50 + 0.03 * dx * static_cast<double>(i));
    }
    const QuarterCar car(dx);
    const double index = car.index(profile);
    RC_ASSERT(std::fabs(car.index(scaled) - factor * index) <= 1e-12 * factor * index);
    RC_ASSERT(car.index(turned) == index);
    RC_ASSERT(std::fabs(car.index(tilted) - index) < 1e-11);
}

RC_GTEST_PROP(QuarterCar, SensitivityIsTheChangeOfTheIndex, ()) {
    const double dx = *rc::gen::element(0.25, 0.3048, 0.5);
    std::vector<double> profile = random_heights(90);
    for (std::size_t i = 0; i < profile.size(); ++i) profile[i] += 0.01 * static_cast<double>(i * i % 7);
    const QuarterCar car(dx);
    for (const double each : car.motion(profile)) RC_PRE(std::fabs(each) > 1e-5);
    const std::vector<double> change = car.sensitivity(profile);
    RC_ASSERT(change.size() == profile.size());
    const auto at = static_cast<std::size_t>(*rc::gen::inRange(0, 90));
    // Too little for any interval to change its sign.
    std::vector<double> moved = profile;
    constexpr double little = 1e-9;
    moved[at] += little;
    RC_ASSERT(std::fabs((car.index(moved) - car.index(profile)) / little - change[at]) < 1e-4);
    // All heights together, and a slope, change nothing.
    double together = 0;
    for (const double each : change) together += each;
    RC_ASSERT(std::fabs(together) < 1e-9);
}

// Against the response itself: sd of zs - zu of independent errors, height by height. What begins is left
// out.
TEST(QuarterCar, NoiseAloneMakesAnIndex) {
    for (const double dx : {0.1, 0.25, 0.5}) {
        const QuarterCar car(dx);
        const std::size_t count = 150;
        const std::size_t k = averaged_samples(dx);
        std::vector<double> variance(count - k, 0);
        for (std::size_t at = 0; at < count; ++at) {
            std::vector<double> even(count - k + 1, 0);
            for (std::size_t j = 0; j < k; ++j) {
                if (at >= j && at - j < even.size()) even[at - j] += 1 / static_cast<double>(k);
            }
            const std::vector<double> moved = car.motion(even, CarState{});
            for (std::size_t i = 0; i < moved.size(); ++i) variance[i] += moved[i] * moved[i];
        }
        double mean = 0;
        for (const double each : variance) mean += std::sqrt(2 / 3.14159265358979 * each);
        mean /= static_cast<double>(variance.size());
        EXPECT_NEAR(car.index_of_noise(count), mean, 0.025 * mean) << dx;
    }
}

}  // namespace fallwright
