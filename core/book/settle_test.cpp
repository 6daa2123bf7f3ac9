#include "book/settle.h"

#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

const std::string laser = R"({"kind":"instrument","name":"L","type":"rotating-laser"}
)";

std::string setup(const std::string& name, const std::string& more = "") {
    return R"({"kind":"setup","name":")" + name + R"(","instrument":"L")" + more + "}\n";
}

std::string reading(const std::string& point, const std::string& more = "") {
    return R"({"kind":"reading","point":")" + point + R"(","staff":1)" + more + "}\n";
}

std::string at(int hour) {
    return R"(,"at":"2026-05-04T)" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + R"(:00:00Z")";
}

std::string setup_of(const Written& book, std::size_t i) {
    return book.name(book->readings.at(i).setup);
}

}  // namespace

TEST(Settle, TheLastSetUpIsTheLastInTimeNotInLines) {
    const Written book(laser + setup("S1", at(10)) + setup("S2", at(14)) + reading("A", at(12)) +
                       reading("B", at(15)) + reading("C", R"(,"setup":"S1")"));
    EXPECT_EQ(setup_of(book, 0), "S1");
    EXPECT_TRUE(book->readings[0].setup_is_last);
    EXPECT_EQ(setup_of(book, 1), "S2");
    EXPECT_EQ(setup_of(book, 2), "S1");
    EXPECT_FALSE(book->readings[2].setup_is_last);
}

TEST(Settle, AnEntryWithoutTimeTakesThatOfTheNearestAbove) {
    const Written book(laser + reading("early") + setup("S1", at(10)) + reading("A") + setup("S2", at(14)) +
                       reading("B", at(11)) + reading("C"));
    EXPECT_EQ(book->entries[1].at, before_all);
    EXPECT_EQ(book.count(Code::NoSetup), 1);
    ASSERT_EQ(book->readings.size(), 3u);
    // C stands below S2, but its time is that of B.
    EXPECT_EQ(setup_of(book, 2), "S1");
    EXPECT_EQ(book->readings_by_time, (std::vector<std::uint32_t>{0, 1, 2}));
}

TEST(Settle, ReadingsByTimeLeavePlannedOnesOutAndBreakTiesByLine) {
    const Written book(laser + setup("S", at(8)) + reading("late", at(12)) + reading("A", at(10)) +
                       R"({"kind":"reading","point":"P","planned":true}
)" + reading("B") + reading("first", at(9)));
    EXPECT_EQ(book->readings.size(), 5u);
    EXPECT_EQ(book->readings_by_time, (std::vector<std::uint32_t>{4, 1, 3, 0}));
}

TEST(Settle, WhatIsReadInASetUpThatIsLeftOutGoesToNoOther) {
    const Written book(laser + setup("S1") + reading("A") +
                       R"({"kind":"setup","name":"S2","instrument":"none"}
)" + reading("B") + reading("C") +
                       setup("S3") + reading("D"));
    ASSERT_EQ(book->readings.size(), 2u);
    EXPECT_EQ(setup_of(book, 1), "S3");
    const Finding said = book.said(Code::NoSetup);
    EXPECT_EQ(said.about, (std::vector<std::string>{"#6", "#7"}));
    EXPECT_EQ(said.message, "set-up #5 is left out, and with it what was read in it");
}

TEST(Settle, AStruckSetUpIsNoLastOne) {
    const Written book(laser + setup("S1") + setup("S2", R"(,"id":"s2")") + reading("A") +
                       R"({"kind":"strike","of":"s2","why":"w"}
)");
    EXPECT_EQ(setup_of(book, 0), "S1");
}

TEST(Settle, OneFindingForAllThatNameTheSameMissingThing) {
    const Written book(laser + setup("S") + reading("A", R"(,"with":"E")") + reading("B", R"(,"with":"E")") +
                       reading("C", R"(,"with":"F")"));
    EXPECT_EQ(book.count(Code::UnknownReference), 2);
    EXPECT_EQ(book.said(Code::UnknownReference).about, (std::vector<std::string>{"#4", "#5"}));
    EXPECT_TRUE(book->readings.empty());
    EXPECT_TRUE(book->entries[3].refused);
}

TEST(Settle, HeadsLeadToATripodAndNotInACircle) {
    const Written book(laser + setup("S1", R"(,"place":{"e":0,"n":0})") + setup("S2", R"(,"head":"S1")") +
                       setup("S3", R"(,"head":"S2")"));
    EXPECT_EQ(book->setups[2].head_at, 1);
    EXPECT_EQ(tripod_of(*book, 2), 0u);
    EXPECT_EQ(tripod_of(*book, 0), 0u);
    // Without a place there is nothing to turn about: each is a tripod of its own.
    const Written nowhere(laser + setup("S1") + setup("S2", R"(,"head":"S1")"));
    EXPECT_EQ(tripod_of(*nowhere, 1), 1u);
    const Written circle(laser + setup("S1", R"(,"head":"S2")") + setup("S2", R"(,"head":"S1")") +
                         setup("S3", R"(,"head":"S1")") + setup("S4"));
    ASSERT_EQ(circle->setups.size(), 1u);
    EXPECT_EQ(circle.name(circle->setups[0].name), "S4");
    EXPECT_EQ(Written(laser + setup("S1", R"(,"head":"S1")"))->setups.size(), 0u);
}

TEST(Settle, WeightedBenchmarksOfOnePointAllStandFixedOnesOnce) {
    const std::string fixed = R"({"kind":"benchmark","point":"BM","level":50}
)";
    const std::string weighted = R"({"kind":"benchmark","point":"BM","level":50.1,"sd":0.01}
)";
    const Written book(fixed + weighted + weighted + fixed);
    EXPECT_EQ(book->benchmarks.size(), 3u);
    EXPECT_TRUE(book->findings.empty());
    // They differ by one 1e-7 m: that is another value.
    const Written other(fixed + R"({"kind":"benchmark","point":"BM","level":50.0000001}
)");
    EXPECT_EQ(other->benchmarks.size(), 1u);
    EXPECT_EQ(other.count(Code::ConflictingBenchmarks), 1);
}

TEST(Settle, TheFirstOfANameStandsPerKind) {
    const Written book(laser + R"({"kind":"staff","name":"L","length":4}
{"kind":"staff","name":"L","length":5}
{"kind":"line","name":"L"}
{"kind":"tolerance","line":"L","what":"laid","above":0.01}
{"kind":"tolerance","line":"L","what":"bed","above":0.02}
{"kind":"tolerance","line":"L","what":"laid","above":0.03}
)");
    EXPECT_EQ(book.count(Code::DuplicateName), 2);
    EXPECT_EQ(book->staffs.at(0).length.value, 4);
    EXPECT_EQ(book->tolerances.size(), 2u);
    EXPECT_EQ(book->lines.size(), 1u);
}

}  // namespace fallwright
