#include "page/share.h"

#include <gtest/gtest.h>

#include "page/booked.h"

namespace fallwright {

namespace {

using By = preset::MisclosureRule::By;

// From BM at 50 level over A, B, C in four set-ups, the last on TBM; TBM and, where it is one, B are off by
// as much. `more` follows each figure.
Booked run_of_four(const std::string& benchmarks, By by = By::Sets, const std::vector<int>& dists = {}) {
    const auto figure = [&dists](std::size_t i) {
        return dists.empty() ? std::string("1") : R"(1,"dist":)" + std::to_string(dists.at(i));
    };
    return {benchmark("BM", "50") + benchmarks,
            {{"S1", "BM", "back", figure(0)},
             {"S1", "A", "fore", figure(1)},
             {"S2", "A", "back", figure(2)},
             {"S2", "B", "fore", figure(3)},
             {"S3", "B", "back", figure(4)},
             {"S3", "C", "fore", figure(5)},
             {"S4", "C", "back", figure(6)},
             {"S4", "TBM", "fore", figure(7)}},
            "",
            by};
}

std::vector<std::int64_t> corrections(const Booked& booked) {
    std::vector<std::int64_t> ticks;
    for (const PageRow& row : booked.page().rows) ticks.push_back((*row.adjusted - row.level).ticks());
    return ticks;
}

using Ticks = std::vector<std::int64_t>;

}  // namespace

TEST(Share, InProportionToSetUpsExactly) {
    // Found 50, known 50.0001: a thousand ticks over four set-ups.
    EXPECT_EQ(corrections(run_of_four(benchmark("TBM", "50.0001"))), (Ticks{0, 250, 500, 750, 1000}));
    // 10 ticks: each share is rounded from the whole, so that the last one is the misclosure itself.
    EXPECT_EQ(corrections(run_of_four(benchmark("TBM", "50.000001"))), (Ticks{0, 3, 5, 8, 10}));
}

TEST(Share, InProportionToDistanceWhereEverySightHasOne) {
    const std::vector<int> dists = {10, 10, 20, 20, 5, 5, 15, 15};
    const Booked booked = run_of_four(benchmark("TBM", "50.0001"), By::Km, dists);
    EXPECT_EQ(booked.closure().length.value, 100);
    EXPECT_EQ(corrections(booked), (Ticks{0, 200, 600, 700, 1000}));
    EXPECT_EQ(corrections(run_of_four(benchmark("TBM", "50.0001"), By::Sets, dists)),
              (Ticks{0, 250, 500, 750, 1000}));
    EXPECT_EQ(corrections(run_of_four(benchmark("TBM", "50.0001"), By::Km)), (Ticks{0, 250, 500, 750, 1000}));
}

TEST(Share, BetweenOneClosureAndTheNext) {
    // B is a benchmark met as inter on the way: its 200 ticks up to there, the other 800 after it.
    const Booked booked(benchmark("BM", "50") + benchmark("B", "50.00002") + benchmark("TBM", "50.0001"),
                        {{"S1", "BM", "back", "1"},
                         {"S1", "A", "fore", "1"},
                         {"S2", "A", "back", "1"},
                         {"S2", "B", "inter", "1"},
                         {"S2", "C", "fore", "1"},
                         {"S3", "C", "back", "1"},
                         {"S3", "D", "fore", "1"},
                         {"S4", "D", "back", "1"},
                         {"S4", "TBM", "fore", "1"}});
    ASSERT_EQ(booked.pages().closures.size(), 2u);
    EXPECT_EQ(corrections(booked), (Ticks{0, 100, 200, 200, 600, 1000}));
}

TEST(Share, AfterTheLastClosureItsCorrectionGoesOn) {
    const Booked booked(benchmark("BM", "50") + benchmark("TBM", "50.0001"), {{"S1", "BM", "back", "1"},
                                                                              {"S1", "TBM", "inter", "1"},
                                                                              {"S1", "A", "fore", "1"},
                                                                              {"S2", "A", "back", "1"},
                                                                              {"S2", "B", "fore", "1"}});
    EXPECT_EQ(corrections(booked), (Ticks{0, 1000, 1000, 1000}));
}

TEST(Share, WhatClosesNowhereOrWithinItsFirstSetUpSharesNothing) {
    const Booked open(benchmark("BM", "50"), {{"S", "BM", "back", "1"}, {"S", "A", "fore", "1"}});
    EXPECT_FALSE(open.row(1).adjusted);
    const Booked again(benchmark("BM", "50"),
                       {{"S", "BM", "back", "1"}, {"S", "A", "inter", "1"}, {"S", "BM", "fore", "1.002"}});
    EXPECT_EQ(again.closure().misclosure, Decimal::metres(-0.002));
    EXPECT_FALSE(again.row(1).adjusted);
}

TEST(Share, TheLengthOfARunIsThatOfItsSights) {
    const Booked booked(benchmark("BM", "50") + benchmark("TBM", "50"),
                        {{"S1", "BM", "back", R"(1,"dist":12)"},
                         {"S1", "A", "inter", R"(1,"dist":90)"},
                         {"S1", "B", "fore", R"(1,"dist":8)"},
                         {"S2", "B", "back", R"(1,"dist":7)"},
                         {"S2", "TBM", "inter", R"(1,"dist":5)"},
                         {"S2", "C", "fore", R"(1,"dist":40)"}});
    EXPECT_EQ(booked.closure().length.value, 32);
}

}  // namespace fallwright
