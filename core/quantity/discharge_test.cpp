#include "quantity/discharge.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

namespace fallwright {

namespace {

double litres_in(const std::string& text, Unit unit = Unit::Metre) {
    const Result<Discharge> read = parse_discharge(text, unit);
    EXPECT_TRUE(static_cast<bool>(read)) << text << (read ? "" : one_line(read.finding()));
    return read ? read->litres() : -999;
}

double metres_in(const std::string& text, Unit unit = Unit::Metre) {
    const Result<Velocity> read = parse_velocity(text, unit);
    EXPECT_TRUE(static_cast<bool>(read)) << text << (read ? "" : one_line(read.finding()));
    return read ? read->metres() : -999;
}

}  // namespace

TEST(Discharge, MetricAsWritten) {
    for (const char* text : {"2.5 l/s", "2.5 L/s", "2.5lps", "2.5 litres per second", "0.0025 m3/s",
                             "0.0025 m\u00b3/s", "0.0025", "150 l/min", "9 m3/h", "9 m^3/hr", "2500 ml/s"})
        EXPECT_NEAR(litres_in(text), 2.5, 1e-12) << text;
}

// One US gallon is 231 cubic inches, so 3.785411784 l exactly (NIST Handbook 44, appendix C); 1 cfs is
// 448.831 gpm and 0.646317 MGD.
TEST(Discharge, UsCustomaryAsWritten) {
    EXPECT_NEAR(litres_in("1 gpm"), 0.0630901964, 1e-12);
    EXPECT_NEAR(litres_in("1 gal/min"), 0.0630901964, 1e-12);
    for (const char* text : {"1 cfs", "1 ft3/s", "1 cu ft/s", "1 cubic foot per second", "1 ft^3/s"})
        EXPECT_NEAR(litres_in(text), 28.316846592, 1e-9) << text;
    EXPECT_NEAR(litres_in("1 MGD"), 43.8126363889, 1e-9);
    EXPECT_NEAR(parse_discharge("1 cfs", Unit::Metre)->gallons_a_minute(), 448.831, 5e-4);
    EXPECT_NEAR(parse_discharge("1 cfs", Unit::Metre)->million_gallons_a_day(), 0.646317, 5e-7);
    EXPECT_NEAR(litres_in("1", Unit::Foot), 28.316846592, 1e-9);
}

TEST(Discharge, VelocityAsWritten) {
    for (const char* text : {"0.7 m/s", "0.7", "700 mm/s", "42 m/min", "0.7 m per s"})
        EXPECT_NEAR(metres_in(text), 0.7, 1e-12) << text;
    for (const char* text : {"2 ft/s", "2 fps", "24 in/s"})
        EXPECT_NEAR(metres_in(text), 0.6096, 1e-12) << text;
    EXPECT_NEAR(metres_in("2", Unit::Foot), 0.6096, 1e-12);
}

TEST(Discharge, WhatIsNoneIsRefused) {
    for (const char* text :
         {"", "-2 l/s", "2 l", "2 m/s", "l/s", "2 m2/s", "2 l/s 3", "2,5 l/s", "2 l/fortnight"}) {
        const Result<Discharge> read = parse_discharge(text, Unit::Metre);
        ASSERT_FALSE(static_cast<bool>(read)) << text;
        EXPECT_EQ(read.finding().code, Code::BadNumber) << text;
        EXPECT_FALSE(read.finding().cure.empty());
    }
    for (const char* text : {"", "-2 m/s", "2 m", "2 l/s", "m/s", "2 m/s 3"})
        EXPECT_FALSE(static_cast<bool>(parse_velocity(text, Unit::Metre))) << text;
}

RC_GTEST_PROP(DischargeProperty, UnitsRoundTrip, ()) {
    const double value = *rc::gen::inRange(0, 1000000) / 1e3;
    for (const Unit unit : {Unit::Metre, Unit::Foot}) {
        RC_ASSERT(std::fabs(Discharge::in(unit, value).in(unit)-value) <= 1e-15 * value);
        RC_ASSERT(std::fabs(Velocity::in(unit, value).in(unit)-value) <= 1e-15 * value);
        RC_ASSERT(parse_discharge(std::to_string(value), unit)->cubic_metres() ==
                  Discharge::in(unit, value).cubic_metres());
    }
}

}  // namespace fallwright
