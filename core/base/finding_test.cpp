#include "base/finding.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <set>
#include <string>

#include "base/result.h"

namespace fallwright {

namespace {

template <class Each>
void for_each_code(Each each) {
    for (std::size_t i = 0; i < static_cast<std::size_t>(Code::count_); ++i)
        each(catalogue(static_cast<Code>(i)));
}

Result<int> halved(int value) {
    if (value % 2 != 0) return finding(Code::OutOfRange, {"x"}, "3 is odd");
    return value / 2;
}

}  // namespace

TEST(Finding, EveryCodeIsWrittenOnceInSmallLettersWithHyphens) {
    std::set<std::string> seen;
    for_each_code([&](const CatalogueEntry& entry) {
        const std::string code(entry.text);
        EXPECT_TRUE(seen.insert(code).second) << code;
        EXPECT_EQ(code.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-"), std::string::npos) << code;
    });
    EXPECT_FALSE(seen.empty());
}

TEST(Finding, EveryCodeHasAMeaningWithoutAFullStop) {
    for_each_code([](const CatalogueEntry& entry) {
        ASSERT_FALSE(entry.meaning.empty()) << entry.text;
        EXPECT_NE(entry.meaning.back(), '.') << entry.text;
    });
}

TEST(Finding, EveryErrorNamesTheCure) {
    for_each_code([](const CatalogueEntry& entry) {
        if (entry.severity == Severity::Error) {
            EXPECT_FALSE(entry.cure.empty()) << entry.text;
        }
    });
}

TEST(Finding, OneLineSaysWhereWhatAndTheCure) {
    const Finding found = finding(Code::BeyondStaff, {"#7", "BM1"}, "the staff ends at 5 m", "read again");
    EXPECT_EQ(one_line(found), "#7, BM1: the staff ends at 5 m; read again");
    EXPECT_EQ(one_line(finding(Code::BeyondStaff, {}, "the staff ends", "")), "the staff ends");
}

TEST(Finding, TheCatalogueGivesTheCureWhereThePlaceHasNone) {
    EXPECT_EQ(finding(Code::BeyondStaff, {}, "x").cure, catalogue(Code::BeyondStaff).cure);
}

TEST(Result, HoldsAValueOrTheReasonThereIsNone) {
    const auto four = halved(8);
    ASSERT_TRUE(static_cast<bool>(four));
    EXPECT_EQ(*four, 4);
    const auto none = halved(3);
    ASSERT_FALSE(static_cast<bool>(none));
    EXPECT_EQ(none.finding().code, Code::OutOfRange);
}

}  // namespace fallwright
