#include "store/lines.h"

#include <gtest/gtest.h>

namespace fallwright::store {
namespace {

// Bounds and examples of RFC 3629 sections 3, 4 and 10.
TEST(Lines, Utf8IsTakenUpToTheLastCharacterOfEachLength) {
    for (const char* good :
         {"", "plain", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80",
          "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf", "Stra\xc3\x9f\x65"}) {
        EXPECT_TRUE(is_utf8(good)) << good;
    }
}

TEST(Lines, OverlongFormsSurrogatesAndCutCharactersAreNoUtf8) {
    for (const char* bad :
         {"\x80", "\xc0\x80", "\xc1\xbf", "\xc3", "\xc3(", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xe2\x82",
          "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "Stra\xdf\x65"}) {
        EXPECT_FALSE(is_utf8(bad)) << bad;
    }
}

TEST(Lines, TheFirstRefusalIsSaidWithItsCure) {
    const auto found = refuse("a.book.jsonl", {"{}", "{\n}", ""});
    ASSERT_TRUE(found);
    EXPECT_EQ(
        one_line(*found),
        "a.book.jsonl: an entry stands on more than one line, nothing has been added; write a line break "
        "inside a text as \\n");
    EXPECT_FALSE(refuse("a.book.jsonl", {"{}", "[]"}));
}

TEST(Lines, EachLineGetsItsBreak) {
    EXPECT_EQ(with_breaks({"a", "b"}), "a\nb\n");
}

}  // namespace
}  // namespace fallwright::store
