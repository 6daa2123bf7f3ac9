#include "setout/setout.h"

#include <gtest/gtest.h>

#include <cmath>

#include "setout/pegs.h"
#include "setout/rails.h"
#include "setout/rod.h"
#include "setout/set_out_book.h"

namespace fallwright {

namespace {

std::string line(const std::string& fields) {
    return R"({"kind":"line","name":"D1","use":"drain",)" + fields + "}\n";
}

const char* const straight = R"("profile":[{"ch":3,"level":10},{"ch":27,"gradient":"1 in 100 fall"}])";

std::vector<double> chainages(const Setout& setout) {
    std::vector<double> all;
    for (const SetoutRow& row : setout.tables.front().rows) all.push_back(row.ch);
    return all;
}

}  // namespace

TEST(Setout, RowsStandAtWholeMultiplesWithinTheProfileAndAtItsOwnPoints) {
    const SetOutBook b(line(straight));
    EXPECT_EQ(chainages(b.set_out(10)), (std::vector<double>{3, 10, 20, 27}));
    EXPECT_EQ(chainages(b.set_out(NAN)), (std::vector<double>{3, 27}));
    // A multiple that an own point all but meets is that point.
    const SetOutBook near(
        line(R"("profile":[{"ch":0,"level":10},{"ch":20.0003,"level":9},{"ch":30,"level":8}])"));
    EXPECT_EQ(chainages(near.set_out(10)), (std::vector<double>{0, 10, 20.0003, 30}));
}

TEST(Setout, MultiplesBelowZeroCountToo) {
    const SetOutBook b(line(R"("profile":[{"ch":-12,"level":10},{"ch":7,"level":9}])"));
    EXPECT_EQ(chainages(b.set_out(5)), (std::vector<double>{-12, -10, -5, 0, 5, 7}));
}

TEST(Setout, AnIntervalOfTheKeyboardsMakingIsCutToTheOwnPoints) {
    const SetOutBook b(line(straight));
    for (const double every : {1e-6, 1e-320}) {
        const Setout setout = b.set_out(every);
        EXPECT_EQ(setout.tables.front().rows.size(), 2u);
        EXPECT_EQ(SetOutBook::count(setout.findings, Code::SetoutTooMany), 1);
    }
}

TEST(Setout, ALineWithoutDesignHasNoRowsAndSaysSo) {
    const SetOutBook b(R"({"kind":"line","name":"D1","use":"drain"})"
                       "\n");
    const Setout setout = b.set_out(10);
    EXPECT_TRUE(setout.tables.front().rows.empty());
    EXPECT_EQ(SetOutBook::count(setout.findings, Code::SetoutNoDesign), 1);
}

TEST(Setout, WhatHasNoHeightIsLeftOutWithAFinding) {
    const SetOutBook b(line(straight));
    const Setout setout = b.set_out(NAN, {"laid", "ground"});
    EXPECT_EQ(setout.tables.front().rows.size(), 2u);
    EXPECT_EQ(SetOutBook::count(setout.findings, Code::SetoutNoSurface), 1);
}

TEST(Setout, AChamberThatStepsHasARowForEachInvert) {
    const SetOutBook b(line(
        R"("profile":[{"ch":0,"level":10},{"ch":30,"level":9}],"chambers":[{"name":"M","ch":15,"in":9.5,"out":9.45}])"));
    const std::vector<SetoutRow> rows = b.set_out(NAN).tables.front().rows;
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[1].what, "laid in");
    EXPECT_NEAR(rows[1].design, 9.5, 1e-9);
    EXPECT_EQ(rows[2].what, "laid out");
    EXPECT_NEAR(rows[2].design, 9.45, 1e-9);
}

TEST(Setout, NothingReadInTheSetUpGivesDesignButNoTarget) {
    const SetOutBook b(line(straight) + R"({"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S","instrument":"L"}
)");
    const Setout setout = b.set_out(10);
    EXPECT_NEAR(setout.tables.front().rows.front().design, 10, 1e-9);
    EXPECT_TRUE(std::isnan(setout.tables.front().rows.front().target));
    EXPECT_EQ(SetOutBook::count(setout.findings, Code::SetoutNoTarget), 1);
}

TEST(Setout, ADesignThatHangsUnderThePointOfTheBackSightIsAsSureAsTheReadings) {
    // The plane comes from the point the design hangs under, so its own uncertainty cancels: what is left is
    // the noise of the back sight and of the reading to come, and the foot of the back sight.
    const SetOutBook b(R"({"kind":"benchmark","point":"BM","level":50,"sd":0.05}
{"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.001,"tilt_sd":0,"setting_tilt_sd":0,"cone_sd":0}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","point":"BM","staff":1.5,"sd":0.001}
)" + line(R"("profile":[{"ch":0,"under":"BM","by":1},{"ch":10,"gradient":0}])"));
    const SetoutRow row = b.set_out(NAN).tables.front().rows.front();
    EXPECT_NEAR(row.target, 2.5, 1e-9);
    const double foot = 0.0003;
    EXPECT_NEAR(row.sd, std::sqrt(1e-6 + 1e-6 + foot * foot), 1e-9);
}

TEST(Pegs, TheLineOnThePegLeavesAWholeTenthDown) {
    EXPECT_NEAR(whole_tenths(1.337, 1), 1.3, 1e-12);
    EXPECT_NEAR(whole_tenths(0.3, 1), 0.3, 1e-12);  // as printed, not 0.2 by the last bit
    EXPECT_NEAR(whole_tenths(-0.32, 1), -0.4, 1e-12);
    EXPECT_NEAR(whole_tenths(5.55 * metres_per_foot, metres_per_foot), 5.5 * metres_per_foot, 1e-12);
}

TEST(Pegs, APegBelowTheDesignIsFilledUp) {
    const SetOutBook b(R"({"kind":"benchmark","point":"D1 5.000 R1.000 peg","level":9.68}
{"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","line":"D1","ch":5,"off":1,"what":"peg","staff":1}
)" + line(R"("profile":[{"ch":0,"level":10},{"ch":10,"level":10}])"));
    const std::vector<PegRow> pegs = peg_card(b.basis(), 0);
    ASSERT_EQ(pegs.size(), 1u);
    EXPECT_NEAR(pegs[0].cut, -0.32, 1e-9);
    EXPECT_NEAR(pegs[0].whole, -0.4, 1e-9);
    EXPECT_NEAR(pegs[0].line_down, 0.08, 1e-9);
    EXPECT_NEAR(pegs[0].sd, 0, 1e-9);
}

TEST(Rails, ATravellerTooLongForTheRunIsNamedWithABetterOne) {
    const SetOutBook b(R"({"kind":"benchmark","point":"D1 0.000 ground","level":11.5}
{"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","line":"D1","ch":0,"what":"ground","staff":1}
{"kind":"reading","line":"D1","ch":10,"what":"ground","staff":1.1}
)" + line(R"("profile":[{"ch":0,"level":10},{"ch":10,"level":9.9}])"));
    const Rails low = sight_rails(b.basis(), b.wish(NAN), 2.5);
    EXPECT_TRUE(low.findings.empty());
    EXPECT_NEAR(low.rails.front().above_ground, 1.0, 1e-9);
    const Rails high = sight_rails(b.basis(), b.wish(NAN), 4);
    ASSERT_EQ(high.findings.size(), 1u);
    EXPECT_NE(high.findings.front().cure.find("2.500 m"), std::string::npos);
}

TEST(Rod, PipesThatDifferHaveACardEach) {
    const SetOutBook b(line(
        std::string(straight) +
        R"(,"pipes":[{"from":3,"to":15,"bore":0.1,"wall":0.005,"bedding":0.1},{"from":15,"to":27,"bore":0.15,"wall":0.005,"bedding":0.1}])"));
    const std::vector<RodCard> cards = rod_cards(b.basis(), b.wish(NAN));
    ASSERT_EQ(cards.size(), 2u);
    EXPECT_NEAR(cards[0].marks.back().height, 0.21, 1e-12);
    EXPECT_NEAR(cards[1].marks.back().height, 0.26, 1e-12);
}

TEST(Rod, TheLayersOfARoadStandOverItsFormation) {
    const SetOutBook b(
        R"({"kind":"line","name":"R1","use":"road","profile":[{"ch":0,"level":10},{"ch":9,"level":10}],)"
        R"("layers":[{"what":"surface","thickness":0.04},{"what":"base","thickness":0.16}]})"
        "\n");
    const std::vector<RodCard> cards = rod_cards(b.basis(), b.wish(NAN));
    ASSERT_EQ(cards.size(), 1u);
    ASSERT_EQ(cards[0].marks.size(), 3u);
    EXPECT_EQ(cards[0].marks[0].what, "formation");
    EXPECT_EQ(cards[0].marks[1].what, "base");
    EXPECT_NEAR(cards[0].marks[1].height, 0.16, 1e-12);
    EXPECT_EQ(cards[0].marks[2].what, "finished");
    EXPECT_NEAR(cards[0].marks[2].height, 0.2, 1e-12);
}

}  // namespace fallwright
