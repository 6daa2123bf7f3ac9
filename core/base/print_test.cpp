#include "base/print.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <string>

namespace fallwright {

// The expected texts are decimal arithmetic by hand from the written rule; the oracle of the properties is
// the C library's exact decimal conversion of a whole number.

TEST(Print, HalvesGoAwayFromZero) {
    EXPECT_EQ(fixed(0.0005, 3), "0.001");
    EXPECT_EQ(fixed(-0.0005, 3), "-0.001");
    EXPECT_EQ(fixed(2.5, 0), "3");
    EXPECT_EQ(fixed(-2.5, 0), "-3");
    EXPECT_EQ(fixed(0.00049999, 3), "0.000");
}

TEST(Print, WhatLastBitsLeaveIsRoundedOffBeforeHalvesAreJudged) {
    // Each is a little under a half in binary, and a half in the arithmetic of the person who booked it.
    EXPECT_EQ(fixed(1.0005, 3), "1.001");
    EXPECT_EQ(fixed(0.1 + 0.2 + 0.0005 - 0.3, 3), "0.001");
    EXPECT_EQ(fixed(0.5 - 1e-12, 0), "1");
    EXPECT_EQ(fixed(0.5 - 1e-9, 0), "0");
}

TEST(Print, ThereIsNoMinusZero) {
    EXPECT_EQ(fixed(-0.0, 3), "0.000");
    EXPECT_EQ(fixed(-0.0004, 3), "0.000");
    EXPECT_EQ(trimmed(-1e-9, 5), "0");
    EXPECT_EQ(significant(-1e-11, 6), "0");
    EXPECT_FALSE(std::signbit(rounded_to(-0.0004, 3)));
}

TEST(Print, TrimmedDropsOnlyZerosAfterThePoint) {
    EXPECT_EQ(trimmed(1.5, 5), "1.5");
    EXPECT_EQ(trimmed(100, 5), "100");
    EXPECT_EQ(trimmed(10.20300, 5), "10.203");
    EXPECT_EQ(trimmed(0, 5), "0");
}

TEST(Print, FixedKeepsAllPlaces) {
    EXPECT_EQ(fixed(10, 3), "10.000");
    EXPECT_EQ(fixed(0.01, 10), "0.0100000000");
    EXPECT_EQ(fixed(-12.3456, 2), "-12.35");
}

TEST(Print, SignificantFiguresCountFromTheFirstThatIsNoZero) {
    EXPECT_EQ(significant(123456.7, 6), "123457");
    EXPECT_EQ(significant(1234567, 6), "1234570");
    EXPECT_EQ(significant(0.0012345678, 6), "0.00123457");
    EXPECT_EQ(significant(-0.95, 1), "-1");
    EXPECT_EQ(significant(9.999999, 6), "10");
}

TEST(Print, WhatIsNotFiniteIsNull) {
    EXPECT_EQ(fixed(std::numeric_limits<double>::infinity(), 3), "null");
    EXPECT_EQ(trimmed(std::numeric_limits<double>::quiet_NaN(), 3), "null");
    EXPECT_EQ(significant(-std::numeric_limits<double>::infinity(), 6), "null");
}

TEST(Print, BeyondTheFineUnitsTheNumberStillStands) {
    EXPECT_EQ(fixed(9e8, 2), "900000000.00");
    EXPECT_EQ(trimmed(1e15, 5), "1000000000000000");
    EXPECT_EQ(fixed(899999999.5, 0), "900000000");
}

RC_GTEST_PROP(Print, BookedTicksComeBackDigitByDigit, ()) {
    const long long ticks = *rc::gen::inRange<long long>(0, 10'000'000'000'000);
    char expected[40];
    std::snprintf(expected, sizeof expected, "%lld.%07lld", ticks / 10'000'000, ticks % 10'000'000);
    RC_ASSERT(fixed(static_cast<double>(ticks) / 1e7, 7) == expected);
}

RC_GTEST_PROP(Print, ThePrintedNumberIsTheRoundedOne, ()) {
    const double v = static_cast<double>(*rc::gen::inRange<long long>(-4'000'000'000, 4'000'000'000)) / 65536;
    const int places = *rc::gen::inRange(0, 8);
    RC_ASSERT(std::strtod(fixed(v, places).c_str(), nullptr) == rounded_to(v, places));
}

RC_GTEST_PROP(Print, SignificantFiguresPrintedAreThoseRounded, ()) {
    const double v = static_cast<double>(*rc::gen::inRange<long long>(-4'000'000'000, 4'000'000'000)) / 65536;
    const int figures = *rc::gen::inRange(1, 15);
    RC_ASSERT(std::strtod(significant(v, figures).c_str(), nullptr) == rounded_to_figures(v, figures));
}

RC_GTEST_PROP(Print, RoundingTwiceChangesNothing, ()) {
    const double v = static_cast<double>(*rc::gen::inRange<long long>(-4'000'000'000, 4'000'000'000)) / 65536;
    const int places = *rc::gen::inRange(0, 8);
    RC_ASSERT(fixed(rounded_to(v, places), places) == fixed(v, places));
}

}  // namespace fallwright
