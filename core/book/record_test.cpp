#include "book/record.h"

#include <gtest/gtest.h>

namespace fallwright {

namespace {

ParseFault fault_of(std::string_view line) {
    return Record().parse(line);
}

std::string nested(int depth) {
    const auto lists = static_cast<std::size_t>(depth - 1);
    return R"({"a":)" + std::string(lists, '[') + "1" + std::string(lists, ']') + "}";
}

}  // namespace

TEST(Record, LaysNodesOutFlatWithTheNextSiblingPastTheLastDescendant) {
    Record record;
    ASSERT_EQ(record.parse(R"({"a":[1.5,[true]],"b":{"c":null},"d":"x"})"), ParseFault::None);
    ASSERT_EQ(record.size(), 8u);
    EXPECT_EQ(record.node(0).end, 8u);
    const Node& list = record.node(1);
    EXPECT_EQ(list.type, NodeType::Array);
    EXPECT_EQ(record.key(list), "a");
    EXPECT_EQ(list.end, 5u);
    EXPECT_EQ(record.node(2).number, 1.5);
    EXPECT_EQ(record.key(record.node(2)), "");
    EXPECT_TRUE(record.node(4).boolean);
    EXPECT_EQ(record.key(record.node(list.end)), "b");
    EXPECT_EQ(record.node(6).type, NodeType::Null);
    EXPECT_EQ(record.text(record.node(7)), "x");
}

TEST(Record, AParseLeavesNothingOfTheLineBefore) {
    Record record;
    ASSERT_EQ(record.parse(R"({"long":"a text of some length","more":[1,2,3]})"), ParseFault::None);
    record.mark_known(1);
    ASSERT_EQ(record.parse(R"({"k":2})"), ParseFault::None);
    EXPECT_EQ(record.size(), 2u);
    EXPECT_FALSE(record.node(1).known);
    EXPECT_EQ(record.key(record.node(1)), "k");
}

TEST(Record, TakesALineOf64KibibytesAndNoByteMore) {
    const std::string most = R"({"t":")" + std::string(longest_line - 8, 'x') + R"("})";
    ASSERT_EQ(most.size(), longest_line);
    EXPECT_EQ(fault_of(most), ParseFault::None);
    EXPECT_EQ(fault_of(most + " "), ParseFault::TooLong);
}

TEST(Record, TakesADepthOf32AndNotOneMore) {
    EXPECT_EQ(fault_of(nested(deepest_nesting)), ParseFault::None);
    EXPECT_EQ(fault_of(nested(deepest_nesting + 1)), ParseFault::TooDeep);
    EXPECT_EQ(fault_of(R"({"a":)" + std::string(60000, '[')), ParseFault::TooDeep);
}

TEST(Record, AKeyIsRepeatedHoweverItIsWritten) {
    EXPECT_EQ(fault_of(R"({"point":"A","po\u0069nt":"B"})"), ParseFault::RepeatedKey);
    EXPECT_EQ(fault_of(R"({"list":[{"a":1,"b":2,"a":1}]})"), ParseFault::RepeatedKey);
    EXPECT_EQ(fault_of(R"({"":1,"":2})"), ParseFault::RepeatedKey);
    // Alike in length and first letter, and yet not the same; the same key in two objects.
    EXPECT_EQ(fault_of(R"({"main":1,"mine":2,"sub":{"main":3}})"), ParseFault::None);
}

TEST(Record, NumbersThatAreNotFiniteAreToldFromTornLines) {
    EXPECT_EQ(fault_of(R"({"a":1e999})"), ParseFault::NotFinite);
    EXPECT_EQ(fault_of(R"({"a":-1e999})"), ParseFault::NotFinite);
    EXPECT_EQ(fault_of(R"({"a":1e-999})"), ParseFault::None);
    for (const char* line : {R"({"a":NaN})", R"({"a":Infinity})", R"({"a":+1})", R"({"a":.5})", R"({"a":01})",
                             R"({"a":1,})", "{'a':1}", R"({"a":1} x)", R"({"a":1}{"b":2})", "{", ""})
        EXPECT_EQ(fault_of(line), ParseFault::Torn) << line;
    for (const char* line : {"[]", "1", "null", R"("a")"})
        EXPECT_EQ(fault_of(line), ParseFault::NoObject) << line;
}

TEST(Record, NumbersAreReadToTheNearestDouble) {
    // IEEE 754: the nearest double of a decimal is unique but for ties; the compiler's own reading is the
    // other way to it.
    Record record;
    ASSERT_EQ(record.parse(R"({"a":0.1234567890123456789,"b":9007199254740993,"c":1e22,"d":-0.0)"
                           R"(,"e":18446744073709551615,"f":123456789012345678901234567890})"),
              ParseFault::None);
    EXPECT_EQ(record.node(1).number, 0.1234567890123456789);
    EXPECT_EQ(record.node(2).number, 9007199254740992.0);
    EXPECT_EQ(record.node(3).number, 1e22);
    EXPECT_EQ(record.node(4).number, 0.0);
    EXPECT_EQ(record.node(5).number, 18446744073709551615.0);
    EXPECT_EQ(record.node(6).number, 123456789012345678901234567890.0);
}

// RFC 8259 section 6 sets no bound to a number's exponent or decimals.
TEST(Record, AZeroIsZeroHoweverItIsWritten) {
    const std::string decimals(30, '0');
    for (const std::string& zero : {std::string("0e-100"), std::string("0E+100"), std::string("0e99"),
                                    "0." + decimals, "0." + decimals + "e-9", std::string("0.00000e400")}) {
        std::string line = R"({"a":[-)";
        line.append(zero).append(",").append(zero).append(R"(],"b":"0e-100, \"0.00000e9"})");
        Record record;
        ASSERT_EQ(record.parse(line), ParseFault::None) << zero;
        EXPECT_EQ(record.node(2).number, 0.0) << zero;
        EXPECT_EQ(record.node(3).number, 0.0) << zero;
        EXPECT_EQ(record.text(record.node(4)), R"(0e-100, "0.00000e9)");
    }
}

TEST(Record, NextToALongZeroAllElseStandsAsWritten) {
    Record record;
    ASSERT_EQ(record.parse(R"({"a":[0e-100,10e-2,0.000001,100.00000,5.0e3,0.00000e1]})"), ParseFault::None);
    const double wanted[] = {0, 0.1, 1e-6, 100, 5000, 0};
    for (std::uint32_t i = 0; i < 6; ++i) EXPECT_EQ(record.node(2 + i).number, wanted[i]);
    for (const char* torn :
         {R"({"a":0e})", R"({"a":00e5})", R"({"a":0.e5})", R"({"a":0e-})", R"({"a":0e-100 5})",
          R"({"a":0e5.00000})", R"({"a":0.00000.0})", R"({"a":0e-100x})"})
        EXPECT_EQ(fault_of(torn), ParseFault::Torn) << torn;
}

TEST(Record, WhatIsNoUtf8IsTorn) {
    EXPECT_EQ(fault_of("{\"a\":\"\xC3\xA4\"}"), ParseFault::None);
    EXPECT_EQ(fault_of("{\"a\":\"\xC3\"}"), ParseFault::Torn);
    EXPECT_EQ(fault_of("{\"a\":\"\xC0\x80\"}"), ParseFault::Torn);      // overlong
    EXPECT_EQ(fault_of("{\"a\":\"\xED\xA0\x80\"}"), ParseFault::Torn);  // half of a pair
    EXPECT_EQ(fault_of(R"({"a":"\ud83d"})"), ParseFault::Torn);
    EXPECT_EQ(fault_of(R"({"a":"\ud83d\ude00"})"), ParseFault::None);
}

TEST(Record, NothingIsLostBehindANul) {
    using std::string_literals::operator""s;
    EXPECT_EQ(fault_of("{\"a\":1}\0{\"b\":2}"s), ParseFault::Torn);
    EXPECT_EQ(fault_of("{\"a\":\"x\0y\"}"s), ParseFault::Torn);
    Record record;
    ASSERT_EQ(record.parse(R"({"a":"x\u0000y"})"), ParseFault::None);
    EXPECT_EQ(record.text(record.node(1)), "x\0y"s);
}

}  // namespace fallwright
