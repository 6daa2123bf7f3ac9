#include "page/page.h"

#include <gtest/gtest.h>

#include "page/booked.h"

namespace fallwright {

namespace {

Decimal m(double metres) {
    return Decimal::metres(metres);
}

const std::string bm = benchmark("BM", "50");

}  // namespace

TEST(Page, BookedBothWaysInOneRowEach) {
    const Booked booked(bm, {{"S1", "BM", "back", "1.5"},
                             {"S1", "A", "inter", "2.25"},
                             {"S1", "B", "fore", "1.1"},
                             {"S2", "B", "back", "0.9"},
                             {"S2", "C", "fore", "1.3"}});
    const Page& page = booked.page();
    ASSERT_EQ(page.rows.size(), 4u);
    const PageRow& start = page.rows[0];
    EXPECT_EQ(start.back, m(1.5));
    EXPECT_EQ(start.collimation, m(51.5));
    EXPECT_TRUE(start.known);
    EXPECT_FALSE(start.rise || start.fall || start.inter || start.fore);
    EXPECT_EQ(page.rows[1].fall, m(0.75));
    EXPECT_FALSE(page.rows[1].rise || page.rows[1].collimation);
    const PageRow& change = page.rows[2];
    EXPECT_EQ(change.fore, m(1.1));
    EXPECT_EQ(change.back, m(0.9));
    EXPECT_EQ(change.rise, m(1.15));
    EXPECT_EQ(change.collimation, m(51.3));
    EXPECT_EQ(booked.setup(change.setup), "S2");
    EXPECT_EQ(page.sum_back, m(2.4));
    EXPECT_EQ(page.sum_rise, m(1.15));
    EXPECT_EQ(page.sum_fall, m(1.15));
    EXPECT_EQ(page.last, m(50));
    EXPECT_TRUE(page.agrees);
    EXPECT_EQ(remark_of(page, start), "benchmark");
    EXPECT_EQ(remark_of(page, change), "change point");
    EXPECT_EQ(remark_of(page, page.rows[3]), "");
}

TEST(Page, TheForeIsTheChangePointElseTheLastForeElseTheLast) {
    const Booked on(bm, {{"S1", "BM", "-", "1"},
                         {"S1", "A", "fore", "2"},
                         {"S1", "B", "-", "3"},
                         {"S2", "A", "-", "1"},
                         {"S2", "C", "-", "1"}});
    EXPECT_EQ(on.point(on.row(1)), "B");
    EXPECT_TRUE(on.row(1).inter && on.row(2).fore && on.row(2).back);
    const Booked said(bm, {{"S1", "BM", "-", "1"}, {"S1", "A", "fore", "2"}, {"S1", "B", "-", "3"}});
    EXPECT_EQ(said.point(said.row(2)), "A");
    EXPECT_EQ(said.row(2).fore, m(2));
    const Booked last(bm, {{"S1", "BM", "-", "1"}, {"S1", "A", "-", "2"}, {"S1", "B", "inter", "3"}});
    EXPECT_EQ(last.row(2).fore, m(3));
}

TEST(Page, ALaterBackSightCountsAsInter) {
    const Booked booked(bm + benchmark("TBM", "51"),
                        {{"S1", "BM", "back", "2"}, {"S1", "TBM", "back", "1.01"}, {"S1", "A", "fore", "1"}});
    EXPECT_EQ(booked.row(1).inter, m(1.01));
    EXPECT_EQ(booked.page().sum_back, m(2));
    ASSERT_EQ(booked.pages().closures.size(), 1u);
    EXPECT_EQ(booked.closure().misclosure, m(-0.01));
}

TEST(Page, ABackSightAfterWhichNothingIsReadIsInNoSum) {
    const Booked booked(bm, {{"S1", "BM", "-", "1"}, {"S1", "A", "-", "2"}, {"S2", "A", "-", "1.5"}});
    EXPECT_EQ(booked.row(1).back, m(1.5));
    EXPECT_EQ(booked.page().sum_back, m(1));
    EXPECT_TRUE(booked.page().agrees);
    EXPECT_EQ(booked.page().last, m(49));
}

TEST(Page, AFixedValueComesBeforeAWeightedOneOfThePoint) {
    const Booked booked(benchmark("BM", "49.9", R"(,"sd":0.01)") + benchmark("BM", "50"),
                        {{"S", "BM", "-", "1"}});
    EXPECT_EQ(booked.page().first, m(50));
    const Booked weighted(benchmark("BM", "49.9", R"(,"sd":0.01)") + benchmark("BM", "50", R"(,"sd":0.001)"),
                          {{"S", "BM", "-", "1"}});
    EXPECT_EQ(weighted.page().first, m(49.9));
}

TEST(Page, WithoutABenchmarkItStartsAt100OfTheBooksUnit) {
    EXPECT_EQ(Booked("", {{"S", "A", "-", "1"}}).page().first, m(100));
    EXPECT_EQ(Booked("", {{"S", "A", "-", "1"}}, R"(,"unit":"ft")").page().first, m(30.48));
    EXPECT_FALSE(Booked("", {{"S", "A", "-", "1"}}).row(0).known);
}

// The model gives the same level there (model_test.cpp): 50 + 1 + 0.02 x 30 - 0.01 x 5 - 2.
TEST(Page, ASlopedPlaneIsSaidAtEachPointAndHasNoSums) {
    const std::string sloped =
        R"({"kind":"setup","name":"S","instrument":"L","place":{"e":0,"n":0},"plane":{"main":0.02,"cross":-0.01,"bearing":90}}
{"kind":"place","point":"BM","e":10,"n":0}
{"kind":"place","point":"A","e":40,"n":-5}
)";
    const Booked booked(bm + sloped, {{"S", "BM", "-", "1"}, {"S", "A", "-", "2"}});
    const Page& page = booked.page();
    EXPECT_TRUE(page.sloped);
    EXPECT_EQ(page.rows[0].collimation, m(51));
    EXPECT_EQ(page.rows[1].collimation, m(51 + 0.6 - 0.05));
    EXPECT_EQ(page.rows[1].level, m(49.55));
    EXPECT_EQ(page.last, m(49.55));
    EXPECT_EQ(page.sum_back, Decimal());
    EXPECT_EQ(remark_of(page, page.rows[1]), "plane level here");
    EXPECT_TRUE(booked.pages().closures.empty());
}

TEST(Page, InvertedReadingsAreNegative) {
    const Booked booked(bm, {{"S", "BM", "-", "1"}, {"S", "roof", "-", "-2.5"}});
    EXPECT_EQ(booked.row(1).fore, m(-2.5));
    EXPECT_EQ(booked.row(1).rise, m(3.5));
    EXPECT_EQ(booked.row(1).level, m(53.5));
    EXPECT_TRUE(booked.page().agrees);
}

TEST(Page, LeftOutSetUpsAreSaidOnce) {
    const Booked booked(bm, {{"S1", "A", "fore", "1"}, {"S2", "B", "fore", "1"}});
    ASSERT_EQ(booked.pages().findings.size(), 1u);
    EXPECT_EQ(booked.pages().findings[0].code, Code::PageNoBack);
    EXPECT_EQ(booked.pages().findings[0].about, (std::vector<std::string>{"S1", "S2"}));
}

TEST(Page, ItsWayIsTheSightsThatCarryTheLevel) {
    const Booked booked(bm, {{"S1", "BM", "back", "1"},
                             {"S1", "A", "inter", "2"},
                             {"S1", "B", "fore", "1"},
                             {"S2", "B", "back", "1"},
                             {"S2", "BM", "fore", "1.002"}});
    const Closure& closure = booked.closure();
    EXPECT_TRUE(closure.loop && closure.from_benchmark);
    EXPECT_EQ(closure.setups, 2);
    EXPECT_EQ(closure.misclosure, m(-0.002));
    EXPECT_FALSE(closure.length.has());
    std::vector<std::pair<std::uint32_t, int>> way;
    for (const WaySight& each : closure.way) way.emplace_back(each.reading, each.sign);
    EXPECT_EQ(way, (std::vector<std::pair<std::uint32_t, int>>{{0, 1}, {2, -1}, {3, 1}, {4, -1}}));
}

}  // namespace fallwright
