#include "base/decimal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdint>
#include <numeric>
#include <vector>

namespace fallwright {

TEST(Decimal, SumsOfBookedMillimetresAreExact) {
    // Ten times 0.1 is the textbook sum that binary floating point misses.
    Decimal sum;
    for (int i = 0; i < 10; ++i) sum += Decimal::metres(0.1);
    EXPECT_EQ(sum, Decimal::metres(1));
    EXPECT_EQ(Decimal::metres(1.432) - Decimal::metres(0.987), Decimal::metres(0.445));
}

TEST(Decimal, AThousandthOfAFootHasNoRemainder) {
    // 0.3048 m to the foot by definition (international yard and pound agreement, 1959).
    EXPECT_EQ(Decimal::metres(0.001 * 0.3048).ticks(), 3048);
    EXPECT_EQ(Decimal::metres(806.52 * 0.3048).ticks(), 2458272960);
}

TEST(Decimal, SharesAreRoundedHalfAwayFromZero) {
    EXPECT_EQ(Decimal::ticks(10).share(1, 4).ticks(), 3);
    EXPECT_EQ(Decimal::ticks(-10).share(1, 4).ticks(), -3);
    EXPECT_EQ(Decimal::ticks(10).share(1, 3).ticks(), 3);
    EXPECT_EQ(Decimal::ticks(0).share(5, 7).ticks(), 0);
}

TEST(Decimal, AShareOfTheWholeIsTheWholeEvenWhereTheProductPasses64Bits) {
    const Decimal large = Decimal::metres(Decimal::limit_metres);
    EXPECT_EQ(large.share(999'999'999'999, 999'999'999'999), large);
    EXPECT_EQ((-large).share(1'000'000'000'000, 1'000'000'000'000), -large);
}

RC_GTEST_PROP(Decimal, MetresThereAndBackKeepTheTicks, ()) {
    const auto ticks = *rc::gen::inRange<std::int64_t>(-100'000'000'000, 100'000'000'000);
    RC_ASSERT(Decimal::metres(Decimal::ticks(ticks).metres()).ticks() == ticks);
}

RC_GTEST_PROP(Decimal, RunningSharesAddUpToTheWhole, ()) {
    // A misclosure is handed out as differences of running shares, so that nothing is lost between set-ups.
    const Decimal whole = Decimal::ticks(*rc::gen::inRange<std::int64_t>(-1'000'000, 1'000'000));
    const auto parts = *rc::gen::nonEmpty(
        rc::gen::container<std::vector<std::int64_t>>(rc::gen::inRange<std::int64_t>(1, 500)));
    const std::int64_t all = std::accumulate(parts.begin(), parts.end(), std::int64_t{0});
    Decimal given;
    std::int64_t reached = 0;
    for (const std::int64_t part : parts) {
        const Decimal before = whole.share(reached, all);
        reached += part;
        given += whole.share(reached, all) - before;
    }
    RC_ASSERT(given == whole);
}

}  // namespace fallwright
