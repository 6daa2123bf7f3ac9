#include "quantity/angle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace fallwright {

namespace {

// A half turn in extended precision, for the C library as an independent reference.
constexpr long double pi = 3.14159265358979323846264338327950288L;

long double radians(double degrees) {
    return std::fmod(static_cast<long double>(degrees), 360.0L) * pi / 180.0L;
}

void expect_close(double degrees) {
    const SinCos at = sincos_degrees(degrees);
    EXPECT_LE(std::fabs(at.sin - static_cast<double>(std::sin(radians(degrees)))), sincos_error) << degrees;
    EXPECT_LE(std::fabs(at.cos - static_cast<double>(std::cos(radians(degrees)))), sincos_error) << degrees;
}

}  // namespace

TEST(Angle, SinCosErrorIsUnderTheConstantOverTheCircle) {
    for (int hundredth = -72000; hundredth <= 72000; ++hundredth) expect_close(hundredth / 100.0);
}

TEST(Angle, SinCosErrorIsUnderTheConstantForRandomAngles) {
    std::mt19937_64 random(20260504);
    for (int i = 0; i < 200000; ++i) {
        expect_close((static_cast<double>(random() >> 11) / 9007199254740992.0 - 0.5) * 2000.0);
    }
}

TEST(Angle, SinCosIsExactAtMultiplesOfNinety) {
    constexpr double sines[] = {0, 1, 0, -1};
    constexpr double cosines[] = {1, 0, -1, 0};
    for (int quarter = -40; quarter <= 40; ++quarter) {
        const SinCos at = sincos_degrees(90.0 * quarter);
        const int place = ((quarter % 4) + 4) % 4;
        EXPECT_EQ(at.sin, sines[place]) << quarter;
        EXPECT_EQ(at.cos, cosines[place]) << quarter;
        EXPECT_FALSE(at.sin == 0 && std::signbit(at.sin)) << quarter;
        EXPECT_FALSE(at.cos == 0 && std::signbit(at.cos)) << quarter;
    }
}

TEST(Angle, OppositeBearingsAreExactlyOpposite) {
    for (int degree = 0; degree < 180; ++degree) {
        const SinCos there = sincos_degrees(degree);
        const SinCos back = sincos_degrees(degree + 180);
        EXPECT_EQ(there.sin, -back.sin);
        EXPECT_EQ(there.cos, -back.cos);
    }
}

TEST(Angle, NotFiniteGivesNotANumber) {
    for (const double wrong : {std::numeric_limits<double>::infinity(), std::nan("")}) {
        EXPECT_TRUE(std::isnan(sincos_degrees(wrong).sin));
        EXPECT_TRUE(std::isnan(sincos_degrees(wrong).cos));
    }
    EXPECT_TRUE(std::isnan(atan_degrees(std::nan(""))));
}

TEST(Angle, ArcTangentAgreesWithTheLibrary) {
    for (int i = -4000; i <= 4000; ++i) {
        const double ratio = i / 1000.0;
        const double library = static_cast<double>(std::atan(static_cast<long double>(ratio)) * 180.0L / pi);
        EXPECT_NEAR(atan_degrees(ratio), library, 1e-13) << ratio;
    }
    for (const double ratio : {1e-300, 1e-9, 1e9, 1e300}) {
        const double library = static_cast<double>(std::atan(static_cast<long double>(ratio)) * 180.0L / pi);
        EXPECT_NEAR(atan_degrees(ratio), library, 1e-13 * (1 + library)) << ratio;
        EXPECT_EQ(atan_degrees(-ratio), -atan_degrees(ratio)) << ratio;
    }
}

TEST(Angle, ArcTangentEndsAtTheRightAngle) {
    EXPECT_EQ(atan_degrees(std::numeric_limits<double>::infinity()), 90.0);
    EXPECT_EQ(atan_degrees(-std::numeric_limits<double>::infinity()), -90.0);
    EXPECT_EQ(atan_degrees(0), 0.0);
}

}  // namespace fallwright
