#include "book/names.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>

namespace fallwright {

TEST(Names, CountFromTheEmptyTextInOrderOfFirstAppearance) {
    Names names;
    EXPECT_EQ(names.size(), 1u);
    EXPECT_EQ(names.intern(""), no_name);
    EXPECT_EQ(names.intern("A"), 1u);
    EXPECT_EQ(names.intern("B"), 2u);
    EXPECT_EQ(names.intern("A"), 1u);
    EXPECT_EQ(names.size(), 3u);
    EXPECT_EQ(names.text(2), "B");
    EXPECT_EQ(names.text(no_name), "");
}

TEST(Names, AskingLeavesNoTrace) {
    Names names;
    names.intern("A");
    EXPECT_EQ(names.find("B"), no_name);
    EXPECT_EQ(names.find(""), no_name);
    EXPECT_EQ(names.find("A"), 1u);
    EXPECT_EQ(names.size(), 2u);
}

TEST(Names, TextsKeepTheirAddressWhileTheTableGrows) {
    Names names;
    const std::string_view first = names.text(names.intern("first"));
    for (int i = 0; i < 50000; ++i) names.intern("name " + std::to_string(i));
    EXPECT_EQ(names.text(names.find("first")).data(), first.data());
    for (int i = 0; i < 50000; ++i) {
        const std::string text = "name " + std::to_string(i);
        ASSERT_EQ(names.find(text), static_cast<NameId>(i + 2));
        ASSERT_EQ(names.text(static_cast<NameId>(i + 2)), text);
    }
}

TEST(Names, TakeTextsLargerThanABlockAndTextsWithNuls) {
    Names names;
    const std::string large(200000, 'x');
    const std::string nul("a\0b", 3);
    const NameId a = names.intern("a"), big = names.intern(large), with_nul = names.intern(nul);
    EXPECT_EQ(names.text(big), large);
    EXPECT_EQ(names.text(with_nul), nul);
    EXPECT_NE(with_nul, a);
    EXPECT_EQ(names.text(names.intern("after")), "after");
}

TEST(Names, MovedNamesAreTheSame) {
    Names names;
    names.intern("A");
    const std::string_view text = names.text(1);
    const Names moved = std::move(names);
    EXPECT_EQ(moved.find("A"), 1u);
    EXPECT_EQ(moved.text(1).data(), text.data());
}

}  // namespace fallwright
