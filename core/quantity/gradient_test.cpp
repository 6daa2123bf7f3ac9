#include "quantity/gradient.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace fallwright {

namespace {

double ratio_in(const std::string& text) {
    const Result<Gradient> gradient = parse_gradient(text);
    EXPECT_TRUE(static_cast<bool>(gradient)) << text << ": " << (gradient ? "" : gradient.finding().message);
    return gradient ? gradient->ratio() : -999;
}

void expect_refused(const std::string& text, const std::string& word) {
    const Result<Gradient> gradient = parse_gradient(text);
    ASSERT_FALSE(static_cast<bool>(gradient)) << text;
    const Finding& finding = gradient.finding();
    EXPECT_EQ(finding.code, Code::BadNumber) << text;
    EXPECT_NE(finding.message.find("\"" + text), std::string::npos) << finding.message;
    EXPECT_NE((finding.message + finding.cure).find(word), std::string::npos) << one_line(finding);
}

// Slope conversions SLP-01, by definition: percent = 100 rise/run, angle = atan(rise/run), 1 in n = run/rise.
// Recomputed; the pairs 43 % = 23.27 deg, 10 % = 5.71 deg, 1 in 12 = 8.33 % = 4.76 deg were seen on published
// pages (techsider.biz, and others).
constexpr std::array<double, 13> percents = {0.25, 0.5, 1, 2, 2.5, 5, 10, 12.5, 20, 25, 43, 50, 100};
constexpr std::array<double, 13> percent_degrees = {
    0.1432, 0.2865, 0.5729, 1.1458, 1.4321, 2.8624, 5.7106, 7.125, 11.3099, 14.0362, 23.2677, 26.5651, 45.0};
constexpr std::array<double, 13> percent_one_in = {400, 200, 100, 50, 40, 20, 10, 8, 5, 4, 2.3256, 2, 1};
constexpr std::array<double, 12> one_ins = {10, 12, 20, 40, 50, 60, 80, 100, 150, 200, 300, 500};
constexpr std::array<double, 12> one_in_percent = {10,   8.33333, 5,       2.5, 2,       1.66667,
                                                   1.25, 1,       0.66667, 0.5, 0.33333, 0.2};
constexpr std::array<double, 12> one_in_degrees = {5.71059, 4.76364, 2.86241, 1.4321,  1.14576, 0.95484,
                                                   0.71616, 0.57294, 0.38197, 0.28648, 0.19099, 0.11459};
constexpr double degree_digits = 5e-5;
constexpr double percent_digits = 1e-5;

}  // namespace

TEST(Gradient, PercentConvertsAsTabulated) {
    for (std::size_t i = 0; i < percents.size(); ++i) {
        const Gradient gradient = Gradient::percent(percents[i]);
        EXPECT_NEAR(gradient.degrees(), percent_degrees[i], degree_digits);
        EXPECT_NEAR(gradient.one_in().value(), percent_one_in[i], 5e-5);
        EXPECT_NEAR(Gradient::degrees(gradient.degrees()).percent(), percents[i], 1e-10);
    }
}

TEST(Gradient, OneInConvertsAsTabulated) {
    for (std::size_t i = 0; i < one_ins.size(); ++i) {
        const Gradient gradient = Gradient::one_in(one_ins[i]);
        EXPECT_NEAR(gradient.percent(), one_in_percent[i], percent_digits);
        EXPECT_NEAR(gradient.degrees(), one_in_degrees[i], percent_digits);
        EXPECT_NEAR(gradient.permille(), 10 * one_in_percent[i], 10 * percent_digits);
    }
}

// SLP-02, SLP-04, SLP-05: falls over 12, 11 and 7 bays of 30 m (the first printed, the others recomputed).
TEST(Gradient, RiseOverRunGivesTheBookedGradients) {
    EXPECT_NEAR(Gradient::of(Length::metres(-9.23), Length::metres(360)).one_in().value(), 39.0, 0.01);
    EXPECT_NEAR(Gradient::of(Length::metres(-9.23), Length::metres(360)).percent(), -2.5639, 5e-5);
    EXPECT_NEAR(Gradient::of(Length::metres(-6.6), Length::metres(330)).one_in().value(), 50.0, 0.005);
    EXPECT_NEAR(Gradient::of(Length::metres(-4.885), Length::metres(210)).one_in().value(), 42.99, 0.01);
}

// GR-06, International Plumbing Code Table 704.1: 1/4, 1/8, 1/16 in per ft are 1 in 48, 96, 192. GR-08, sewer
// slopes in ft per 100 ft: 0.40 is 0.40 %.
TEST(Gradient, FractionsOfAnInchPerFootAreExact) {
    EXPECT_NEAR(1 / ratio_in("1/4 in per ft"), 48, 1e-12);
    EXPECT_NEAR(1 / ratio_in("1/8\"/ft"), 96, 1e-12);
    EXPECT_NEAR(1 / ratio_in("1/16 in. per ft."), 192, 1e-12);
    EXPECT_NEAR(1 / ratio_in("\u00bc in/ft"), 48, 1e-12);
    EXPECT_NEAR(ratio_in("0.40 ft/100 ft"), 0.0040, 1e-15);
    EXPECT_NEAR(ratio_in("0.40'/100'"), 0.0040, 1e-15);
}

TEST(Gradient, EveryWayOfWritingOneInEightyIsTheSame) {
    for (const char* text : {"1 in 80",
                             "1:80",
                             "1 : 80",
                             "1 to 80",
                             "1/80",
                             "1.25 %",
                             "1.25%",
                             "1.25 percent",
                             "1.25 per cent",
                             "12.5 mm/m",
                             "12.5mm/m",
                             "12.5 mm per m",
                             "12.5 mm per metre",
                             "12.5 mm in 1 m",
                             "12.5 permille",
                             "12.5 per mille",
                             "12.5 \u2030",
                             "0.0125",
                             ".0125",
                             "1.25 ft/100 ft",
                             "1.25 cm/m",
                             "12.5 m/km",
                             "0.15 in/ft",
                             "3 in in 20 ft",
                             "1 m in 80 m",
                             "+1.25 %",
                             "1 IN 80",
                             "1\u00a0in\u00a080"}) {
        EXPECT_NEAR(ratio_in(text), 0.0125, 1e-15) << text;
    }
    for (const char* text : {"0.7162 deg", "0.7162\u00b0", "0.7162 degrees", "0.7162\u00ba"}) {
        EXPECT_NEAR(ratio_in(text), 0.0125, 1e-6) << text;
    }
}

TEST(Gradient, WordsAndSignsGiveTheDirection) {
    for (const char* text : {"1 in 80 fall", "1 in 80 falling", "1 in 80 down", "1 in 80 downhill",
                             "fall 1 in 80", "falling at 1:80", "a fall of 1 in 80", "-1 in 80", "1 in -80",
                             "-1.25 %", "- 1.25%", "\u22121.25 %", "1.25% fall", "-1.25 % fall",
                             "fall -1.25 %", "12.5 mm/m falls", "-0.0125", "falling down 1 in 80"}) {
        EXPECT_NEAR(ratio_in(text), -0.0125, 1e-15) << text;
    }
    for (const char* text : {"1:80 rise", "1 in 80 rising", "up 1 in 80", "1 in 80 uphill", "+1.25 % rise",
                             "a rise of 1.25 %", "1 in +80"}) {
        EXPECT_NEAR(ratio_in(text), 0.0125, 1e-15) << text;
    }
}

TEST(Gradient, LevelIsWrittenAsAWordOrAsZero) {
    for (const char* text : {"level", "Level", " flat ", "0", "0 %", "0:80", "0 mm/m fall", "-0"}) {
        EXPECT_EQ(ratio_in(text), 0.0) << text;
        EXPECT_FALSE(std::signbit(ratio_in(text))) << text;
    }
}

TEST(Gradient, ContradictionsAreRefused) {
    for (const char* text : {"+1.25 % fall", "-1.25 % rise", "rise 1 in 80 fall", "1 in 80 falling up",
                             "-1 in -80", "-1 in +80", "+1 in +80"}) {
        expect_refused(text, "one sign or one word");
    }
}

TEST(Gradient, OneInZeroIsRefused) {
    expect_refused("1 in 0", "upright");
    expect_refused("1:0 fall", "upright");
    expect_refused("0 in 0", "upright");
    expect_refused("1 mm in 0 m", "upright");
}

TEST(Gradient, SteeperThanOneInOneIsRefused) {
    for (const char* text : {"100 in 1", "2:1", "1.25", "100.1 %", "46 deg", "1 in 0.5", "89.9999999 deg",
                             "90 deg", "12.5 mm/mm"}) {
        EXPECT_FALSE(static_cast<bool>(parse_gradient(text))) << text;
    }
    expect_refused("100 in 1", "rise first");
    expect_refused("1.25", "write the %");
    EXPECT_EQ(ratio_in("1:1"), 1.0);
    EXPECT_EQ(ratio_in("100 %"), 1.0);
    EXPECT_NEAR(ratio_in("45 deg"), 1.0, 1e-15);
}

TEST(Gradient, InchesOrRatioIsAsked) {
    expect_refused("3 in 10 ft", "inches or a ratio");
    EXPECT_NEAR(ratio_in("3 in per 10 ft"), 0.025, 1e-15);
}

TEST(Gradient, CommaIsRefusedWithTheCure) {
    expect_refused("1,25 %", "decimal point");
}

TEST(Gradient, WhatIsNoGradientIsRefused) {
    expect_refused("", "no figure");
    for (const char* text :
         {"steep", "1 in", "in 80", "1:80:3", "1.25 % 3", "1.25 m", "12.5 mm/", "1/0", "1 in x", "level fall",
          "1.25 %%", "1 in 80 sideways", "80 in/in in", "per cent", "1:80 ft"}) {
        expect_refused(text, "gradient");
    }
}

TEST(Gradient, BelowTheLastPlaceItIsLevel) {
    EXPECT_FALSE(Gradient::ratio(4.9e-8).one_in().has_value());
    EXPECT_EQ(Gradient::ratio(-4.9e-8).word(), "level");
    EXPECT_NEAR(Gradient::ratio(-1e-7).one_in().value(), 1e7, 1e-3);
    EXPECT_NEAR(Gradient::ratio(6e-8).one_in().value(), 1 / 6e-8, 1e-3);
    EXPECT_EQ(Gradient::ratio(-1e-7).word(), "falling");
}

TEST(Gradient, AllWaysAtOnceForPeople) {
    const GradientTexts texts = all_ways(Gradient::one_in(-80));
    EXPECT_EQ(texts.one_in, "1 in 80 falling");
    EXPECT_EQ(texts.percent, "-1.25 %");
    EXPECT_EQ(texts.mm_per_m, "-12.5 mm/m");
    EXPECT_EQ(texts.degrees, "-0.7162 deg");
    EXPECT_EQ(all_ways(Gradient::one_in(60)).one_in, "1 in 60 rising");
    EXPECT_EQ(all_ways(Gradient::ratio(0.0153), 3).one_in, "1 in 65.4 rising");
    EXPECT_EQ(all_ways(Gradient()).one_in, "level");
    EXPECT_EQ(all_ways(Gradient()).percent, "0 %");
}

TEST(Gradient, WhatIsWrittenReadsBack) {
    for (int i = -1000; i <= 1000; ++i) {
        const Gradient gradient = Gradient::ratio(i / 1000.0);
        const GradientTexts texts = all_ways(gradient, 10);
        for (const std::string& text : {texts.one_in, texts.percent, texts.mm_per_m, texts.degrees}) {
            EXPECT_NEAR(ratio_in(text), gradient.ratio(), 2e-9) << text;
        }
    }
}

TEST(Gradient, AnyTextGivesAGradientOrAFinding) {
    const std::vector<std::string> pieces = {"1",   "80",     "0",      "1.25", ".",     "/",    ":", "in",
                                             "per", "%",      "-",      "+",    " ",     "fall", "m", "mm",
                                             "ft",  "'",      "\"",     "up",   "of",    "x",    ",", "deg",
                                             "e",   "\u2030", "\u2212", "\xE2", "level", "\xB1"};
    std::mt19937_64 random(80);
    int read = 0;
    for (int i = 0; i < 100000; ++i) {
        std::string text;
        for (std::uint64_t length = random() % 9; length > 0; --length)
            text += pieces[random() % pieces.size()];
        const Result<Gradient> gradient = parse_gradient(text);
        if (gradient) {
            ++read;
            ASSERT_LE(std::fabs(gradient->ratio()), 1 + 1e-7) << text;
        } else {
            ASSERT_FALSE(gradient.finding().message.empty()) << text;
            ASSERT_FALSE(gradient.finding().cure.empty()) << text;
        }
    }
    EXPECT_GT(read, 1000);
}

TEST(Gradient, TimesALengthIsTheRise) {
    EXPECT_DOUBLE_EQ((Gradient::one_in(-80) * Length::metres(40)).metres(), -0.5);
    EXPECT_NEAR((Gradient::percent(1) + Gradient::percent(2) - Gradient::percent(4)).percent(), -1, 1e-15);
    EXPECT_LT(-Gradient::percent(1), Gradient::percent(1));
}

// Where water runs a fall is positive, with or without the word; a sign or a word of rising is against it.
TEST(Gradient, AFallIsPositiveTheWayTheWaterRuns) {
    for (const char* text : {"1 in 80", "1 in 80 fall", "FALLING 1:80", "-1.25 % down", "1.25 % downhill"})
        EXPECT_DOUBLE_EQ(parse_fall(text)->ratio(), 0.0125) << text;
    for (const char* text : {"-1 in 80", "1 in 80 rise", "-1.25 %", "rising 1:80"})
        EXPECT_DOUBLE_EQ(parse_fall(text)->ratio(), -0.0125) << text;
    EXPECT_EQ(parse_fall("level")->ratio(), 0);
    EXPECT_FALSE(static_cast<bool>(parse_fall("1 in 0 fall")));
    EXPECT_EQ(as_fall(Gradient::ratio(-0.01), "").ratio(), -0.01);
}

}  // namespace fallwright
