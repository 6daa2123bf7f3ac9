#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string drain(const std::string& name, const std::string& fields) {
    return R"({"kind":"line","name":")" + name + R"(","use":"drain",)" + fields + "}\n";
}

// Falls 1 in 100 from 50.000, 0.150 m bore.
const std::string main_drain =
    drain("M", R"("profile":[{"ch":0,"level":50},{"ch":80,"gradient":"1 in 100 fall"}],
    "pipes":[{"from":0,"to":80,"bore":0.15,"wall":0.01}])");

}  // namespace

TEST(Joins, FixTheDownstreamEndByInvert) {
    const Designed d(main_drain + drain("L", R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.7}],
        "joins":{"line":"M","ch":32,"by":"invert"})"));
    EXPECT_NEAR(d.level("laid", 10, 0, 1), 49.68, 1e-12);
    EXPECT_NEAR(d.level("laid", 5, 0, 1), 49.84, 1e-12);
    EXPECT_EQ(
        d.message(Code::ProfileOverridden),
        "line L: the profile at chainage 10.000 as written lies 0.020 above what the chamber or join there "
        "gives, which holds");
}

TEST(Joins, OfALineRunAgainstItsChainageFixItsBeginning) {
    const Designed d(main_drain +
                     drain("L", R"("profile":[{"ch":0,"level":49.68},{"ch":10,"gradient":"1 in 40 rise"}],
        "joins":{"line":"M","ch":32,"by":"invert"})"));
    EXPECT_NEAR(d.level("laid", 0, 0, 1), 49.68, 1e-12);
    EXPECT_NEAR(d.level("laid", 10, 0, 1), 49.93, 1e-12);
}

TEST(Joins, MayStandAboveTheLineTheyJoin) {
    const Designed d(drain("L", R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.68}],
        "joins":{"line":"M","ch":32,"by":"invert"})") +
                     main_drain);
    EXPECT_NEAR(d.level("laid", 10), 49.68, 1e-12);
}

TEST(Joins, LeadFromLineToLine) {
    const Designed d(
        drain(
            "A",
            R"("profile":[{"ch":0,"level":51},{"ch":10,"level":49.84}],"joins":{"line":"B","ch":5,"by":"invert"})") +
        drain(
            "B",
            R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.68}],"joins":{"line":"M","ch":32,"by":"invert"})") +
        main_drain);
    EXPECT_NEAR(d.level("laid", 10), 49.84, 1e-12);
}

// A chamber on the main steps down by 30 mm: a branch comes in at the level at which water leaves.
TEST(Joins, AtAChamberCountFromWhereItLeaves) {
    const Designed d(
        drain("M", R"("profile":[{"ch":0,"level":50},{"ch":80,"level":49.2}],
        "chambers":[{"name":"C","ch":40,"in":49.6,"out":49.57}])") +
        drain(
            "L",
            R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.57}],"joins":{"line":"M","ch":40,"by":"invert"})"));
    EXPECT_NEAR(d.level("laid", 10, 0, 1), 49.57, 1e-12);
}

TEST(Joins, OfBothEndsTheFirstIsDownstream) {
    const Designed d(main_drain + drain("L", R"("profile":[{"ch":0,"level":49.99},{"ch":10,"level":49.5}],
        "joins":[{"line":"M","ch":50,"by":"invert"},{"line":"M","ch":1,"by":"invert"}])"));
    EXPECT_NEAR(d.level("laid", 10, 0, 1), 49.5, 1e-12);
    EXPECT_NEAR(d.level("laid", 0, 0, 1), 49.99, 1e-12);
}

TEST(Joins, BeyondTheTwoEndsAreNotUsed) {
    const Designed d(main_drain + drain("L", R"("profile":[{"ch":0,"level":49.99},{"ch":10,"level":49.5}],
        "joins":[{"line":"M","ch":50,"by":"invert"},{"line":"M","ch":1,"by":"invert"},{"line":"M","ch":2,"by":"invert"}])"));
    EXPECT_EQ(d.message(Code::JoinTooMany), "line L: has 3 joins, and two ends");
}

TEST(Joins, OverrideAChambersInAndLeaveItsOut) {
    const Designed d(main_drain + drain("L", R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.68}],
        "chambers":[{"name":"C","ch":10,"in":49.7,"out":49.6}],"joins":{"line":"M","ch":32,"by":"invert"})"));
    EXPECT_NEAR(d.level("laid in", 10, 0, 1), 49.68, 1e-12);
    EXPECT_NEAR(d.level("laid out", 10, 0, 1), 49.6, 1e-12);
}

TEST(Joins, CarryWhatTheOtherLineHangsUnder) {
    const Designed d(
        drain("M", R"("profile":[{"ch":0,"under":"A","by":1},{"ch":80,"gradient":"1 in 100 fall"}])") +
        drain("L", R"("flow":"with","profile":[{"ch":0,"level":50},{"ch":10,"level":49.5}],
        "joins":{"line":"M","ch":40,"by":"invert"})") +
        R"({"kind":"benchmark","point":"A","level":50.9})");
    const DesignLevel end = d.line(1).level("laid", 10);
    ASSERT_EQ(end.hangs.size(), 1u);
    EXPECT_EQ(d.book().name(end.hangs[0].point), "A");
    EXPECT_DOUBLE_EQ(end.hangs[0].coefficient, 1);
    EXPECT_NEAR(end.constant, -1.4, 1e-12);
    EXPECT_NEAR(d.line(1).level("laid", 5).hangs[0].coefficient, 0.5, 1e-12);
}

TEST(Joins, ThatLeadBackAreRefusedAndTheEndsStayAsWritten) {
    const Designed d(
        drain(
            "A",
            R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49}],"joins":{"line":"B","ch":1,"by":"invert"})") +
        drain(
            "B",
            R"("profile":[{"ch":0,"level":48},{"ch":10,"level":47}],"joins":{"line":"A","ch":1,"by":"invert"})") +
        drain(
            "C",
            R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49}],"joins":{"line":"A","ch":5,"by":"invert"})"));
    EXPECT_EQ(d.count(Code::JoinCircle), 1);
    EXPECT_EQ(d.message(Code::JoinCircle), "A joins B joins A, so none of them has a level to join");
    EXPECT_DOUBLE_EQ(d.level("laid", 10), 49);
    EXPECT_DOUBLE_EQ(d.level("laid", 10, 0, 1), 47);
    EXPECT_DOUBLE_EQ(d.level("laid", 10, 0, 2), 49.5);
}

TEST(Joins, ToTheirOwnLineAreRefused) {
    const Designed d(drain(
        "A",
        R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49}],"joins":{"line":"A","ch":1,"by":"invert"})"));
    EXPECT_EQ(d.message(Code::JoinCircle), "A joins A, so none of them has a level to join");
}

TEST(Joins, InARowOfAHundredThousandDoNotExhaustTheProgram) {
    std::string book;
    const int n = 100000;
    for (int i = 0; i < n; ++i)
        book += drain("L" + std::to_string(i),
                      R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49}],"joins":{"line":"L)" +
                          std::to_string(i + 1) + R"(","ch":10,"by":"invert"})");
    const Designed d(
        book + drain("L" + std::to_string(n), R"("profile":[{"ch":0,"level":50},{"ch":10,"level":48}])"));
    EXPECT_DOUBLE_EQ(d.level("laid", 10), 48);
}

TEST(Joins, ToNothingAreNotUsed) {
    const std::string own = R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.5}],)";
    const Designed lost(drain("L", own + R"("joins":{"line":"X","ch":1,"by":"invert"})"));
    EXPECT_EQ(lost.message(Code::JoinToNothing),
              "line L: joins X at chainage 1.000, and no such line is in the book");
    const Designed beyond(main_drain + drain("L", own + R"("joins":{"line":"M","ch":81,"by":"invert"})"));
    EXPECT_EQ(beyond.message(Code::JoinToNothing),
              "line L: joins M at chainage 81.000, where that line has no design");
    EXPECT_DOUBLE_EQ(beyond.level("laid", 10, 0, 1), 49.5);
}

TEST(Joins, BySoffitNeedBothBores) {
    const Designed d(main_drain + drain("L", R"("profile":[{"ch":0,"level":50},{"ch":10,"level":49.5}],
        "joins":{"line":"M","ch":32,"by":"soffit"})"));
    EXPECT_EQ(d.message(Code::JoinNoBore),
              "line L: joins M at chainage 32.000 by its soffit, and a bore there is missing");
    EXPECT_DOUBLE_EQ(d.level("laid", 10, 0, 1), 49.5);
}

}  // namespace fallwright
