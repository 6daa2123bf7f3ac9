#include "exchange/text/decimal_mark.h"

#include <gtest/gtest.h>

#include <initializer_list>

namespace fallwright::text {
namespace {

constexpr double staff_in_metres = 10;
constexpr double staff_in_millimetres = 10000;

char mark(std::initializer_list<const char*> cells, double largest, char separator = '\t') {
    MarkVote vote;
    for (const char* cell : cells) vote.add(cell, largest);
    return vote.mark(separator);
}

TEST(DecimalMark, IsDecidedByFiguresThatCanMeanOneThingOnly) {
    EXPECT_EQ(mark({"1,5"}, staff_in_millimetres), ',');
    EXPECT_EQ(mark({"0,953"}, staff_in_millimetres), ',');
    EXPECT_EQ(mark({"1234,567"}, 1e9), ',');
    EXPECT_EQ(mark({"1.234,56"}, 1e9), ',');
    EXPECT_EQ(mark({"1.234.567"}, 1e9), ',');
    EXPECT_EQ(mark({"1.5"}, staff_in_millimetres), '.');
    EXPECT_EQ(mark({"1,234.56"}, 1e9), '.');
    EXPECT_EQ(mark({"1,234,567"}, 1e9), '.');
}

TEST(DecimalMark, NoStaffIsAThousandMetresLong) {
    EXPECT_EQ(mark({"1,717", "2,918"}, staff_in_metres), ',');
    EXPECT_EQ(mark({"1.717", "2.918"}, staff_in_metres), '.');
}

TEST(DecimalMark, GoesByTheWholeNumberNotByItsThousands) {
    EXPECT_EQ(mark({"9.999"}, 9999), '\0');
    EXPECT_EQ(mark({"9.999"}, 9998), '.');
    EXPECT_EQ(mark({"9.500"}, 0), '.');
}

TEST(DecimalMark, IsLeftOpenWhereEveryFigureCanBeThousands) {
    EXPECT_EQ(mark({"1,717", "2,918"}, staff_in_millimetres), '\0');
    EXPECT_EQ(mark({"1.717", "2.918"}, staff_in_millimetres), '\0');
    EXPECT_EQ(mark({"1.717", "2,918"}, staff_in_millimetres, ';'), '\0');
}

TEST(DecimalMark, TheSeparatorSettlesWhatIsLeftOpen) {
    EXPECT_EQ(mark({"1,717"}, staff_in_millimetres, ';'), ',');
    EXPECT_EQ(mark({"1.717"}, staff_in_millimetres, ','), '.');
    EXPECT_EQ(mark({"1,717"}, staff_in_millimetres, ','), '\0');
}

TEST(DecimalMark, IsThePointWhereNoFigureHasOne) {
    EXPECT_EQ(mark({}, staff_in_metres), '.');
    EXPECT_EQ(mark({"17", "words, and. more", "1,2x3"}, staff_in_metres), '.');
}

TEST(DecimalMark, GoesByTheMajorityOfClearFigures) {
    EXPECT_EQ(mark({"1,5", "1,6", "1.7"}, staff_in_metres), ',');
    EXPECT_EQ(mark({"1.5", "1.6", "1,7"}, staff_in_metres), '.');
}

}  // namespace
}  // namespace fallwright::text
