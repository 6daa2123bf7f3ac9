#include "book/time.h"

#include <gtest/gtest.h>

namespace fallwright {

namespace {

constexpr Instant second = 1000000;

// Seconds since 1970, checked with `date -u -d ... +%s` (GNU coreutils).
constexpr Instant spring_1985 = 482196050;    // 1985-04-12T23:20:50Z
constexpr Instant december_1996 = 851042397;  // 1996-12-20T00:39:57Z
constexpr Instant new_year_1991 = 662688000;  // 1991-01-01T00:00:00Z
constexpr Instant before_1970 = -1041337173;  // 1937-01-01T11:40:27Z
constexpr Instant leap_day_2000 = 951782400;  // 2000-02-29T00:00:00Z

}  // namespace

// RFC 3339 section 5.8, all its examples.
TEST(Time, ExamplesOfTheStandard) {
    EXPECT_EQ(parse_time("1985-04-12T23:20:50.52Z"), spring_1985 * second + 520000);
    EXPECT_EQ(parse_time("1996-12-19T16:39:57-08:00"), december_1996 * second);
    EXPECT_EQ(parse_time("1990-12-31T23:59:60Z"), new_year_1991 * second);
    EXPECT_EQ(parse_time("1990-12-31T15:59:60-08:00"), new_year_1991 * second);
    EXPECT_EQ(parse_time("1937-01-01T12:00:27.87+00:20"), before_1970 * second + 870000);
}

// RFC 3339 section 5.6: T and Z may be small letters, and a blank may stand for T.
TEST(Time, SmallLettersAndABlank) {
    EXPECT_EQ(parse_time("1996-12-20t00:39:57z"), december_1996 * second);
    EXPECT_EQ(parse_time("1996-12-20 00:39:57Z"), december_1996 * second);
    EXPECT_EQ(parse_time("1996-12-20T00:39:57-00:00"), december_1996 * second);
}

TEST(Time, DigitsBeyondTheMicrosecondAreDropped) {
    EXPECT_EQ(parse_time("1996-12-20T00:39:57.0000019Z"), december_1996 * second + 1);
    EXPECT_EQ(parse_time("1996-12-20T00:39:57." + std::string(400, '9') + "Z"),
              december_1996 * second + 999999);
}

// RFC 3339 appendix C: every fourth year, no full century but every fourth of them.
TEST(Time, LeapYears) {
    EXPECT_EQ(parse_time("2000-02-29T00:00:00Z"), leap_day_2000 * second);
    EXPECT_TRUE(parse_time("2024-02-29T00:00:00Z"));
    EXPECT_FALSE(parse_time("2023-02-29T00:00:00Z"));
    EXPECT_FALSE(parse_time("1900-02-29T00:00:00Z"));
}

TEST(Time, EveryDayOfFourCenturiesIsOneDayAfterTheLast) {
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    std::optional<Instant> last = parse_time("1799-12-31T00:00:00Z");
    for (int year = 1800; year < 2200; ++year) {
        const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        for (int month = 1; month <= 12; ++month) {
            for (int day = 1; day <= days[month - 1] + (month == 2 && leap ? 1 : 0); ++day) {
                char text[64];
                std::snprintf(text, sizeof text, "%04d-%02d-%02dT00:00:00Z", year, month, day);
                const std::optional<Instant> now = parse_time(text);
                ASSERT_EQ(*now - *last, 86400 * second) << text;
                last = now;
            }
        }
    }
}

TEST(Time, WhatIsNoTimeIsNone) {
    for (const char* text : {"",
                             "1996-12-20",
                             "1996-12-20T00:39:57",
                             "1996-12-20T00:39Z",
                             "96-12-20T00:39:57Z",
                             "1996-13-20T00:39:57Z",
                             "1996-00-20T00:39:57Z",
                             "1996-12-00T00:39:57Z",
                             "1996-11-31T00:39:57Z",
                             "1996-12-20T24:00:00Z",
                             "1996-12-20T00:60:00Z",
                             "1996-12-20T00:39:61Z",
                             "1996-12-20T00:39:57.Z",
                             "1996-12-20T00:39:57+1:00",
                             "1996-12-20T00:39:57+01:60",
                             "1996-12-20T00:39:57+24:00",
                             "1996-12-20T00:39:57Z ",
                             " 1996-12-20T00:39:57Z",
                             "1996-12-20T00:39:57+0100",
                             "1996-12-20T00:39:-7Z",
                             "20.12.1996 00:39"})
        EXPECT_FALSE(parse_time(text)) << text;
}

TEST(Time, EveryTimeIsAfterBeforeAll) {
    EXPECT_GT(parse_time("0000-01-01T00:00:00+23:59"), before_all);
}

}  // namespace fallwright
