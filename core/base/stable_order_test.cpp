#include "base/stable_order.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <memory>
#include <string>

namespace fallwright {

namespace {

RC_GTEST_PROP(StableOrder, IsTheStandardLibrarysStableSort, (std::vector<std::pair<int, int>> items)) {
    for (auto& item : items) item.first %= 4;
    const auto before = [](const auto& a, const auto& b) { return a.first < b.first; };
    std::vector<std::pair<int, int>> expected = items;
    std::stable_sort(expected.begin(), expected.end(), before);
    sort_stably(items, before);
    RC_ASSERT(items == expected);
}

TEST(StableOrder, MovesWhatCannotBeCopiedAndNeedsNoComparisonOfItsOwn) {
    std::vector<std::unique_ptr<int>> items;
    for (const int each : {3, 1, 2}) items.push_back(std::make_unique<int>(each));
    sort_stably(items, [](const auto& a, const auto& b) { return *a < *b; });
    EXPECT_EQ(*items[0], 1);
    EXPECT_EQ(*items[2], 3);
    std::vector<std::string> words = {"rod", "peg", "cut"};
    sort_stably(words);
    EXPECT_EQ(words, (std::vector<std::string>{"cut", "peg", "rod"}));
}

}  // namespace

}  // namespace fallwright
