#include "quantity/length.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>

namespace fallwright {

namespace {

double metres_in(const std::string& text, Unit unit = Unit::Metre) {
    const Result<Length> length = parse_length(text, unit);
    EXPECT_TRUE(static_cast<bool>(length)) << text << ": " << (length ? "" : length.finding().message);
    return length ? length->metres() : -999;
}

void expect_refused(const Finding& finding, const std::string& text, const std::string& word) {
    EXPECT_EQ(finding.code, Code::BadNumber) << text;
    EXPECT_NE(finding.message.find("\"" + text), std::string::npos) << finding.message;
    EXPECT_NE((finding.message + finding.cure).find(word), std::string::npos) << one_line(finding);
    EXPECT_FALSE(finding.cure.empty());
}

void expect_length_refused(const std::string& text, const std::string& word, Unit unit = Unit::Metre) {
    const Result<Length> length = parse_length(text, unit);
    ASSERT_FALSE(static_cast<bool>(length)) << text;
    expect_refused(length.finding(), text, word);
}

}  // namespace

TEST(Length, MetricTextIsExactToTheLastBit) {
    for (const char* text :
         {"1.432", "1.432 m", "1432 mm", "1432mm", "143.2 cm", "0.001432 km", " 1.432 M "}) {
        EXPECT_EQ(metres_in(text), 1.432) << text;
    }
}

TEST(Length, BareFigureIsInTheUnitOfTheBook) {
    EXPECT_EQ(metres_in("10", Unit::Foot), 10 * 0.3048);
    EXPECT_EQ(metres_in("10 m", Unit::Foot), 10.0);
}

// One foot is 0.3048 m exactly, one inch 25.4 mm exactly: international yard and pound agreement of 1959.
TEST(Length, FeetAndInchesAreTheInternationalOnes) {
    EXPECT_DOUBLE_EQ(metres_in("4.70 ft"), 1.43256);
    EXPECT_DOUBLE_EQ(metres_in("1 in"), 0.0254);
    EXPECT_DOUBLE_EQ(metres_in("1 ft"), 0.3048);
    EXPECT_DOUBLE_EQ(metres_in("8 3/8 in"), 0.212725);
    EXPECT_DOUBLE_EQ(metres_in("1/2 in"), 0.0127);
    EXPECT_DOUBLE_EQ(metres_in("1 mile"), 1609.344);
}

TEST(Length, FeetAndInchesTogetherReadEveryWayTheyAreWritten) {
    for (const char* text : {"4 ft 8 3/8 in", "4' 8 3/8\"", "4'-8 3/8\"", "4ft 8.375in",
                             "4 feet 8 3/8 inches", "4\u2032 8\u215c\u2033", "4 ft. 8 3/8 in."}) {
        EXPECT_DOUBLE_EQ(metres_in(text), 56.375 * 0.0254) << text;
    }
}

TEST(Length, SignHoldsForTheWhole) {
    EXPECT_EQ(metres_in("-3.045"), -3.045);
    EXPECT_EQ(metres_in("\u22123.045"), -3.045);
    EXPECT_EQ(metres_in("+3.045"), 3.045);
    EXPECT_DOUBLE_EQ(metres_in("-4' 6\""), -54 * 0.0254);
    EXPECT_FALSE(std::signbit(metres_in("-0")));
}

TEST(Length, NumbersAreReadWithoutTheLibrary) {
    EXPECT_EQ(metres_in(".5"), 0.5);
    EXPECT_EQ(metres_in("5."), 5.0);
    EXPECT_EQ(metres_in("0.333333333333333333333333333333"), 0.333333333333333333);
    EXPECT_EQ(metres_in("123456.7890123"), 123456.7890123);
    EXPECT_EQ(metres_in("0000.1"), 0.1);
    EXPECT_DOUBLE_EQ(metres_in("0.00000000000000012345"), 1.2345e-16);
}

TEST(Length, CommaIsRefusedWithTheCure) {
    expect_length_refused("1,432", "decimal point");
    expect_length_refused("1,432 m", "comma");
}

TEST(Length, WhatIsNoLengthIsRefused) {
    expect_length_refused("", "no figure");
    expect_length_refused("   ", "no figure");
    expect_length_refused("m", "no length");
    expect_length_refused("1.2.3", "not understood");
    expect_length_refused("1e3", "not understood");
    expect_length_refused("1.432 furlong", "furlong");
    expect_length_refused("1 m 43 cm", "not understood");
    expect_length_refused("--1", "no length");
    expect_length_refused("1.5 1/2 in", "not understood");
    expect_length_refused("1 3/2 in", "not understood");
    expect_length_refused("1/0 m", "no length");
    expect_length_refused("1234567890123", "larger");
    expect_length_refused("99999999999 m", "larger");
    expect_length_refused("nan", "no length");
    expect_length_refused("inf", "no length");
}

TEST(Length, FeetAndInchesThatDoNotFitAreRefused) {
    expect_length_refused("4 ft 8", "unit", Unit::Foot);
    expect_length_refused("4.5 ft 8 in", "whole");
    expect_length_refused("4 ft 12 in", "below 12");
}

TEST(Length, LongAndBrokenTextIsQuotedWhole) {
    const std::string broken = std::string(39, 'x') + "\u2212y";
    const Result<Length> length = parse_length(broken, Unit::Metre);
    ASSERT_FALSE(static_cast<bool>(length));
    EXPECT_NE(length.finding().message.find(std::string(39, 'x') + "...\""), std::string::npos);
    EXPECT_FALSE(static_cast<bool>(parse_length(std::string(500, '1'), Unit::Metre)));
}

TEST(Measured, ValueAndDeviationReadEveryWayTheyAreWritten) {
    for (const char* text : {"54.88\u00b10.05", "54.88 +- 0.05", "54.88+/-0.05", "54.88 m +- 5 cm",
                             "54.88 +- 50 mm", "5488 cm +- 5"}) {
        const Result<Measured> measured = parse_measured(text, Unit::Metre);
        ASSERT_TRUE(static_cast<bool>(measured)) << text;
        EXPECT_DOUBLE_EQ(measured->value.metres(), 54.88) << text;
        ASSERT_TRUE(measured->sd.has_value()) << text;
        EXPECT_DOUBLE_EQ(measured->sd->metres(), 0.05) << text;
    }
}

TEST(Measured, NoDeviationIsNotADeviationOfZero) {
    EXPECT_FALSE(parse_measured("54.88", Unit::Metre)->sd.has_value());
    EXPECT_EQ(parse_measured("54.88 +- 0", Unit::Metre)->sd, Length());
}

TEST(Measured, DeviationTakesTheUnitOfTheValue) {
    const Result<Measured> measured = parse_measured("180 ft +- 0.2", Unit::Metre);
    EXPECT_DOUBLE_EQ(measured->sd->metres(), 0.2 * 0.3048);
}

TEST(Measured, UnitOfTheDeviationAloneIsRefusedAcrossSystems) {
    const Result<Measured> measured = parse_measured("54.88 +- 0.05 m", Unit::Foot);
    ASSERT_FALSE(static_cast<bool>(measured));
    expect_refused(measured.finding(), "54.88 +- 0.05 m", "both");
}

TEST(Measured, DeviationHasNoSignAndIsNotEmpty) {
    for (const std::string text : {"54.88 +- -0.05", "54.88 +-", "54.88 +- 0.05 0.1"}) {
        const Result<Measured> measured = parse_measured(text, Unit::Metre);
        ASSERT_FALSE(static_cast<bool>(measured)) << text;
        expect_refused(measured.finding(), text, "");
    }
}

TEST(Chainage, MetricIsKilometresAndMetres) {
    EXPECT_EQ(parse_chainage("0+900", Unit::Metre)->metres(), 900.0);
    EXPECT_EQ(parse_chainage("12+034.5", Unit::Metre)->metres(), 12034.5);
    EXPECT_EQ(parse_chainage("-0+010.5", Unit::Metre)->metres(), -10.5);
    EXPECT_EQ(parse_chainage("900", Unit::Metre)->metres(), 900.0);
    EXPECT_EQ(parse_chainage("-10.5 m", Unit::Metre)->metres(), -10.5);
}

// US stations of 100 ft: common practice, no source.
TEST(Chainage, InFeetItIsStationsOfAHundred) {
    EXPECT_DOUBLE_EQ(parse_chainage("9+00", Unit::Foot)->feet(), 900.0);
    EXPECT_DOUBLE_EQ(parse_chainage("12+34.56", Unit::Foot)->feet(), 1234.56);
}

TEST(Chainage, TheOtherSystemsFiguresAreRefused) {
    for (const auto& [text, unit] : {std::pair("9+00", Unit::Metre), std::pair("0+900", Unit::Foot),
                                     std::pair("0+90", Unit::Metre), std::pair("0.5+900", Unit::Metre),
                                     std::pair("0+900 m", Unit::Metre), std::pair("0+", Unit::Metre)}) {
        const Result<Length> chainage = parse_chainage(text, unit);
        ASSERT_FALSE(static_cast<bool>(chainage)) << text;
        expect_refused(chainage.finding(), text, "");
    }
}

TEST(Chainage, WriterRoundsBeforeItSplits) {
    EXPECT_EQ(chainage_text(Length::metres(900), Unit::Metre, 0), "0+900");
    EXPECT_EQ(chainage_text(Length::metres(999.9996), Unit::Metre, 3), "1+000.000");
    EXPECT_EQ(chainage_text(Length::metres(12034.5), Unit::Metre, 1), "12+034.5");
    EXPECT_EQ(chainage_text(Length::metres(-10.5), Unit::Metre, 1), "-0+010.5");
    EXPECT_EQ(chainage_text(Length::metres(-0.0001), Unit::Metre, 2), "0+000.00");
    EXPECT_EQ(chainage_text(Length::feet(900), Unit::Foot, 0), "9+00");
    EXPECT_EQ(chainage_text(Length::feet(1234.56), Unit::Foot, 2), "12+34.56");
}

TEST(Chainage, WriterReadsBack) {
    for (int tenth = -25000; tenth <= 25000; tenth += 37) {
        for (const Unit unit : {Unit::Metre, Unit::Foot}) {
            const Length chainage = Length::in(unit, tenth / 10.0);
            const Result<Length> back = parse_chainage(chainage_text(chainage, unit, 1), unit);
            ASSERT_TRUE(static_cast<bool>(back)) << tenth;
            EXPECT_NEAR(back->metres(), chainage.metres(), 1e-9);
        }
    }
}

}  // namespace fallwright
