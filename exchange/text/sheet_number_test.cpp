#include "exchange/text/sheet_number.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "exchange/text/sheet_place.h"

namespace fallwright::text {
namespace {

constexpr DecimalMark point{'.', false};
constexpr DecimalMark comma{',', false};
constexpr DecimalMark unknown{'\0', false};

std::string metres(std::string_view text, DecimalMark mark = point, LengthUnit unit = LengthUnit::Metre) {
    const ParsedAmount parsed = parse_amount(text, mark, unit);
    return parsed.fault == NumberFault::None ? parsed.amount.written(LengthUnit::Metre) : "refused";
}

NumberFault fault(std::string_view text, DecimalMark mark = point) {
    return parse_amount(text, mark, LengthUnit::Metre).fault;
}

TEST(SheetNumber, KeepsTheFigureAsTyped) {
    EXPECT_EQ(metres("1.432"), "1.432");
    EXPECT_EQ(metres("+1.700"), "1.7");
    EXPECT_EQ(metres("-3.045"), "-3.045");
    EXPECT_EQ(metres("\xE2\x88\x92"
                     "3.045"),
              "-3.045");
    EXPECT_EQ(metres("-0.05"), "-0.05");
    EXPECT_EQ(metres(".5"), "0.5");
    EXPECT_EQ(metres("007."), "7");
    EXPECT_EQ(metres("-0.000"), "0");
    EXPECT_EQ(metres("1,432", comma), "1.432");
}

TEST(SheetNumber, TakesGroupsOfThreeThatCannotBeMistaken) {
    EXPECT_EQ(metres("1,234.567"), "1234.567");
    EXPECT_EQ(metres("1.234,567", comma), "1234.567");
    EXPECT_EQ(metres("1 234.5"), "1234.5");
    EXPECT_EQ(metres("1\xC2\xA0"
                     "234,5",
                     comma),
              "1234.5");
    EXPECT_EQ(metres("1'234.5"), "1234.5");
    EXPECT_EQ(metres("1\xE2\x80\x99"
                     "234.5"),
              "1234.5");
    EXPECT_EQ(metres("1,234,567"), "1234567");
    EXPECT_EQ(metres("1,234", {'.', true}), "1234");
}

TEST(SheetNumber, RefusesWhatMayMeanTwoThings) {
    EXPECT_EQ(fault("1,234"), NumberFault::Ambiguous);
    EXPECT_EQ(fault("1.234", comma), NumberFault::Ambiguous);
    EXPECT_EQ(fault("1.5", unknown), NumberFault::Ambiguous);
    EXPECT_EQ(fault("15", unknown), NumberFault::None);
}

TEST(SheetNumber, RefusesWhatIsNoNumber) {
    for (const char* text : {"", ".", "-", "1.2.3", "1,23", "12,34.5", "1,2345", "1 23", "1,234'567",
                             "1.5E+00", "l.432", "1-2", "0x10", "1.4 stone", "nan", "inf", "--1"}) {
        EXPECT_EQ(fault(text), NumberFault::NotANumber) << text;
    }
    EXPECT_EQ(fault(std::string(1000, '1')), NumberFault::NotANumber);
    EXPECT_EQ(fault("12345678"), NumberFault::TooLarge);
    EXPECT_EQ(parse_amount("9999999", point, LengthUnit::Kilometre).fault, NumberFault::TooLarge);
    for (const char* text : {"#REF!", "####", "#N/A", "Err:502"})
        EXPECT_EQ(fault(text), NumberFault::SheetError) << text;
}

TEST(SheetNumber, RoundsTheTailsThatSpreadsheetsWrite) {
    EXPECT_EQ(metres("29.515000000000001"), "29.515");
    EXPECT_EQ(metres("28.999999999999996"), "29");
    EXPECT_EQ(metres("-28.999999999999996"), "-29");
    EXPECT_EQ(metres("0.12345678"), "0.1234568");
}

TEST(SheetNumber, AUnitAfterTheFigureWins) {
    EXPECT_EQ(metres("1432 mm"), "1.432");
    EXPECT_EQ(metres("143.2cm"), "1.432");
    EXPECT_EQ(metres("1.432m", point, LengthUnit::Millimetre), "1.432");
}

// 0.3048 m and 0.0254 m by definition (international foot and inch).
TEST(SheetNumber, ConvertsUnitsExactly) {
    EXPECT_EQ(metres("4.5", point, LengthUnit::Foot), "1.3716");
    EXPECT_EQ(metres("1.001", point, LengthUnit::Foot), "0.3051048");
    EXPECT_EQ(metres("1", point, LengthUnit::Inch), "0.0254");
    EXPECT_EQ(metres("1.25", point, LengthUnit::Kilometre), "1250");
    EXPECT_EQ(metres("14.32", point, LengthUnit::Decimetre), "1.432");
    const Amount foot = parse_amount("4.70", point, LengthUnit::Foot).amount;
    EXPECT_EQ(foot.written(LengthUnit::Foot), "4.7");
    EXPECT_EQ(foot.length().ticks(), 14325600);
}

TEST(SheetNumber, MetresInFeetComeBackToTheSameTick) {
    for (std::int64_t ticks = 1; ticks < 99999999; ticks += 765433) {
        const Amount amount{ticks, 7, LengthUnit::Metre};
        const double feet = std::strtod(amount.written(LengthUnit::Foot).c_str(), nullptr);
        EXPECT_EQ(Decimal::metres(feet * 0.3048).ticks(), ticks);
    }
}

TEST(SheetNumber, TheLastDigitSaysHowFineAFigureIs) {
    const Amount amount = parse_amount("29.50", point, LengthUnit::Metre).amount;
    EXPECT_EQ(amount.places, 2);
    EXPECT_EQ(amount.step(amount.places).ticks(), 100000);
    EXPECT_EQ(parse_amount("15", point, LengthUnit::Millimetre).amount.step(0).ticks(), 10000);
}

std::string chainage(std::string_view text, LengthUnit unit = LengthUnit::Metre) {
    const auto amount = parse_chainage(text, point, unit);
    return amount ? amount->written(LengthUnit::Metre) : "none";
}

TEST(SheetPlace, ReadsChainages) {
    EXPECT_EQ(chainage("40"), "40");
    EXPECT_EQ(chainage("Ch. 40.25"), "40.25");
    EXPECT_EQ(chainage("0+040"), "40");
    EXPECT_EQ(chainage("12+345.678"), "12345.678");
    EXPECT_EQ(chainage("km 1+250"), "1250");
    EXPECT_EQ(chainage("km 1.25"), "1250");
    EXPECT_EQ(chainage("sta 4+00"), "400");
    EXPECT_EQ(chainage("-5"), "-5");
    for (const char* text : {"", "BM1", "A", "0+4", "0+0400", "start", "ch", "1+2+300"}) {
        EXPECT_EQ(chainage(text), "none") << text;
    }
}

std::string offset(std::string_view text) {
    const auto amount = parse_offset(text, point, LengthUnit::Metre);
    return amount ? amount->written(LengthUnit::Metre) : "none";
}

TEST(SheetPlace, ReadsOffsetsRightPositive) {
    EXPECT_EQ(offset("3.5"), "3.5");
    EXPECT_EQ(offset("-3.5"), "-3.5");
    EXPECT_EQ(offset("\xE2\x88\x92"
                     "3.5"),
              "-3.5");
    EXPECT_EQ(offset("L 3.5"), "-3.5");
    EXPECT_EQ(offset("3.5 m left"), "none");
    EXPECT_EQ(offset("3.5 RHS"), "3.5");
    EXPECT_EQ(offset("350 mm"), "0.35");
    EXPECT_EQ(offset(".5"), "0.5");
    EXPECT_EQ(offset("CL"), "0");
    for (const char* text : {"", "left", "L -3.5", "3.5 up", "about 3"})
        EXPECT_EQ(offset(text), "none") << text;
}

}  // namespace
}  // namespace fallwright::text
