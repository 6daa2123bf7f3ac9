#include "dial/dial.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/print.h"
#include "dial/card.h"
#include "dial/dialled.h"

namespace fallwright {

namespace {

const char* const laser = R"({"kind":"instrument","name":"L","type":"rotating-laser","grade_step":1e-5}
)";

std::string line(const std::string& fields) {
    return R"({"kind":"line","name":"D1","profile":[{"ch":0,"level":50},{"ch":40,"gradient":-0.0125}])" +
           fields + "}\n";
}

std::string setup(const std::string& fields) {
    return R"({"kind":"setup","name":"S1","instrument":"L")" + fields + "}\n";
}

// Two points read on the flat plane, the laser `ahead` before the near one, whatever the direction.
std::string flat(double near, double far, double apart, double ahead) {
    const auto number = [](double v) { return trimmed(v, 7); };
    return std::string(laser) + R"({"kind":"line","name":"D1"}
{"kind":"place","point":"A","line":"D1","ch":0}
{"kind":"place","point":"B","line":"D1","ch":)" +
           number(apart) + "}\n" +
           setup(R"(,"place":{"line":"D1","ch":)" + number(-ahead) + R"(},"plane":{"bearing":0})") +
           R"({"kind":"reading","point":"A","staff":)" + number(near) + R"(}
{"kind":"reading","point":"B","staff":)" +
           number(far) + "}\n";
}

}  // namespace

// geo-4, geo-4b: a fall taken up from two readings (derived for this project).
TEST(Dial, TheFallBetweenTwoReadingsIsWhatToSet) {
    const Dialled level(flat(1.432, 2.118, 54.88, 4));
    const Dials dials = level.points({"A", "B"});
    ASSERT_EQ(dials.dials.size(), 1U);
    EXPECT_NEAR(dials.dials[0].grades.main, -0.0125, 1e-10);
    EXPECT_NEAR(dials.dials[0].keyed.main, -1.25, 1e-12);
    EXPECT_TRUE(Dialled::says(dials, Code::MatchNotProved));
}

TEST(Dial, OnePassMarkIsTheFarReadingLessTheDifferenceInProportion) {
    const Dialled level(flat(1.432, 2.118, 54.88, 4));
    const Dials dials = level.points({"A", "B"});
    ASSERT_TRUE(dials.dials.at(0).take_up);
    const TakeUp& match = *dials.dials[0].take_up;
    EXPECT_NEAR(match.mark, 2.118 - (2.118 - 1.432) * (54.88 + 4) / 54.88, 1e-9);
    EXPECT_EQ(level.book->name(match.near), "A");
    // The laser beyond the far point: the near one is now the other.
    const Dialled beyond(flat(1.432, 2.118, 54.88, -60));
    const Dials other = beyond.points({"A", "B"});
    ASSERT_TRUE(other.dials.at(0).take_up);
    EXPECT_EQ(beyond.book->name(other.dials[0].take_up->near), "B");
}

RC_GTEST_PROP(Dial, OnePassMatchMakesBothEndsReadTheMarkFromAnywhereOnTheLine, ()) {
    const auto pick = [](int low, int high) { return *rc::gen::inRange(low, high) / 1000.0; };
    const double near = pick(500, 4000);
    const double apart = pick(20000, 100000);
    const double far = near + pick(-30, 31) * apart;
    const Dialled level(flat(near, far, apart, pick(-150000, 150000)));
    const Dials dials = level.points({"A", "B"});
    RC_PRE(!dials.dials.empty());
    const Dial& dial = dials.dials[0];
    RC_ASSERT(dial.take_up.has_value());
    RC_ASSERT(std::fabs(level.reads(dial.grades, "A") - dial.take_up->mark) < 1e-6);
    RC_ASSERT(std::fabs(level.reads(dial.grades, "B") - dial.take_up->mark) < 1e-6);
}

// The same with the laser off the line and a crossfall: still one mark.
RC_GTEST_PROP(Dial, OnePassMatchHoldsOffTheLineToo, ()) {
    const auto pick = [](int low, int high) { return *rc::gen::inRange(low, high) / 1000.0; };
    const std::string entries = std::string(laser) + R"({"kind":"place","point":"A","e":10,"n":20}
{"kind":"place","point":"B","e":50,"n":65}
)" +
                                setup(R"(,"place":{"e":)" + trimmed(pick(-90000, 90000), 3) + R"(,"n":)" +
                                      trimmed(pick(-90000, 90000), 3) + R"(},"plane":{"bearing":)" +
                                      trimmed(pick(0, 360000), 3) + "}") +
                                R"({"kind":"reading","point":"A","staff":1.432}
{"kind":"reading","point":"B","staff":2.118}
)";
    const Dialled level(entries);
    const Dials dials = level.points({"A", "B"}, pick(-50, 51));
    RC_ASSERT(dials.dials.size() == 1U);
    const Dial& dial = dials.dials[0];
    RC_ASSERT(std::fabs(level.reads(dial.grades, "A") - dial.take_up->mark) < 1e-6);
    RC_ASSERT(std::fabs(level.reads(dial.grades, "B") - dial.take_up->mark) < 1e-6);
}

TEST(Dial, PointsTooCloseTogetherTellNoGradient) {
    const Dials dials = Dialled(flat(1.432, 1.435, 0.25, 4)).points({"A", "B"});
    EXPECT_TRUE(dials.dials.empty());
    EXPECT_TRUE(Dialled::says(dials, Code::DialBaselineShort));
}

TEST(Dial, ASetUpWithoutBearingIsToldToAimAlongTheLine) {
    const Dialled book(std::string(laser) + line(R"(,"plan":[[100,50],[130,90]],"crossfall":0.02)") +
                       setup(R"(,"place":{"e":100,"n":50})"));
    const Dials dials = book.line();
    ASSERT_EQ(dials.dials.size(), 1U);
    const Dial& dial = dials.dials[0];
    EXPECT_TRUE(dial.aim_is_advice);
    EXPECT_NEAR(dial.aim, 36.8698976, 1e-6);  // the 3-4-5 triangle
    EXPECT_NEAR(dial.grades.main, -0.0125, 1e-12);
    EXPECT_NEAR(dial.grades.cross, 0.02, 1e-12);
    EXPECT_NEAR(dial.farthest, 40, 1e-9);
    EXPECT_NEAR(dial.rounding_cost, 0.5e-5 * 40, 1e-12);
}

TEST(Dial, EachStraightStretchAndEachDirectionIsOneDial) {
    const Dialled book(
        std::string(laser) +
        R"({"kind":"line","name":"D1","plan":[[0,0],[0,20],[20,20]],"profile":[{"ch":0,"level":50},{"ch":30,"gradient":-0.01},{"ch":40,"gradient":-0.02}]}
)" + setup(R"(,"place":{"e":0,"n":0},"plane":{"bearing":0})"));
    const Dials dials = book.line();
    ASSERT_EQ(dials.dials.size(), 3U);
    EXPECT_NEAR(dials.dials[0].to, 20, 1e-9);
    EXPECT_NEAR(dials.dials[0].grades.main, -0.01, 1e-12);
    EXPECT_NEAR(dials.dials[1].grades.cross, -0.01, 1e-12);  // the line has turned to the right
    EXPECT_NEAR(dials.dials[1].grades.main, 0, 1e-12);
    EXPECT_NEAR(dials.dials[2].grades.cross, -0.02, 1e-12);
}

TEST(Dial, ACamberIsTwoPlanesOneAtATime) {
    const Dialled book(std::string(laser) + line(R"(,"crossfall":[-0.025,-0.025])") + setup(""));
    const Dials dials = book.line();
    ASSERT_EQ(dials.dials.size(), 2U);
    EXPECT_EQ(dials.dials[0].side, DialSide::Left);
    EXPECT_NEAR(dials.dials[0].grades.cross, 0.025, 1e-12);
    EXPECT_EQ(dials.dials[1].side, DialSide::Right);
    EXPECT_NEAR(dials.dials[1].grades.cross, -0.025, 1e-12);
    EXPECT_TRUE(Dialled::says(dials, Code::DialTwoPlanes));
}

TEST(Dial, AlongACurveTheStraightsAreStillGiven) {
    const Dialled book(
        std::string(laser) +
        R"({"kind":"line","name":"R1","profile":[{"ch":0,"level":50},{"ch":50,"level":50.5,"curve":40},{"ch":100,"level":50}]}
)" + setup(""));
    const Dials dials = book.line();
    ASSERT_EQ(dials.dials.size(), 2U);
    EXPECT_NEAR(dials.dials[0].to, 30, 1e-9);
    EXPECT_NEAR(dials.dials[1].from, 70, 1e-9);
    EXPECT_TRUE(Dialled::says(dials, Code::DialTwoPlanes));
}

TEST(Dial, BeyondTheLimitAnAxisShowsNothing) {
    const Dialled book(
        R"({"kind":"instrument","name":"L","type":"rotating-laser","grade_limit":[0.01,0.1]}
)" + line("") +
        setup(""));
    const Dials dials = book.line();
    ASSERT_EQ(dials.dials.size(), 1U);
    EXPECT_FALSE(dials.dials[0].reachable);
    EXPECT_TRUE(std::isnan(dials.dials[0].keyed.main));
    EXPECT_EQ(dials.dials[0].keyed.cross, 0);
    EXPECT_TRUE(Dialled::says(dials, Code::DialBeyondLimit));
}

TEST(Dial, WhatTheBookHasAlreadyNeedsNoChange) {
    const std::string read = R"({"kind":"benchmark","point":"BM","level":51}
{"kind":"place","point":"BM","line":"D1","ch":38,"off":2}
{"kind":"reading","point":"BM","staff":1}
)";
    const std::string place = R"(,"place":{"line":"D1","ch":-4},"plane":{"towards":"D1","main":)";
    const Dialled set(std::string(laser) + line("") + setup(place + "-0.0125}") + read);
    EXPECT_TRUE(set.line().dials.at(0).as_in_book);
    EXPECT_FALSE(Dialled::says(set.line(), Code::DialDiffers));
    const Dialled flat_still(std::string(laser) + line("") + setup(place + "0}") + read);
    const Dials dials = flat_still.line();
    EXPECT_FALSE(dials.dials.at(0).as_in_book);
    EXPECT_TRUE(Dialled::says(dials, Code::DialDiffers));
    // Read flat 42 m ahead, the plane then falls 0.525 m there.
    ASSERT_TRUE(dials.dials[0].proof);
    EXPECT_NEAR(dials.dials[0].proof->staff, 1 - 0.0125 * 42, 1e-9);
    EXPECT_GT(dials.dials[0].proof->sd, set.line().dials[0].proof->sd);
}

TEST(Dial, TheProofIsNoPointThatThePlaneItselfGaveItsLevel) {
    const Dialled book(std::string(laser) + line("") +
                       setup(R"(,"place":{"line":"D1","ch":-4},"plane":{"main":-0.0125,"towards":"D1"})") +
                       R"({"kind":"benchmark","point":"BM","level":51}
{"kind":"place","point":"BM","line":"D1","ch":20,"off":2}
{"kind":"reading","point":"BM","staff":1}
{"kind":"reading","line":"D1","ch":40,"what":"laid","staff":1.5}
)");
    ASSERT_TRUE(book.line().dials.at(0).proof);
    EXPECT_EQ(book.book->name(book.line().dials[0].proof->point), "BM");
}

// The road over a drain is no mark for its plane, however far ahead and well known: it is not there yet.
TEST(Dial, APointOfAnotherLineProvesNothingWhileThereIsAnother) {
    const std::string plan = R"(,"plan":[[0,0],[0,40]])";
    const std::string road = R"({"kind":"line","name":"R1","use":"road","plan":[[1,0],[1,40]]}
{"kind":"setup","name":"S2","instrument":"L","place":{"line":"D1","ch":-4},"plane":{"towards":"D1"}}
{"kind":"reading","point":"BM","staff":1}
{"kind":"reading","line":"R1","ch":39,"what":"finished","staff":1.2}
)";
    const std::string mark = R"({"kind":"benchmark","point":"BM","level":51}
{"kind":"place","point":"BM","line":"D1","ch":20,"off":2}
)";
    const std::string set_up =
        setup(R"(,"place":{"line":"D1","ch":-4},"plane":{"main":-0.0125,"towards":"D1"})");
    const std::string back = R"({"kind":"reading","point":"BM","staff":1}
)";
    const auto proof = [&](const std::string& book_text) {
        const Dialled book(book_text);
        const std::optional<DialProof> found = book.line().dials.at(0).proof;
        return found ? book.book->name(found->point) : "none";
    };
    EXPECT_EQ(proof(std::string(laser) + line(plan) + mark + set_up + back + road), "BM");
}

TEST(Dial, TheCardBeginsWithLastJobsGrade) {
    const Dialled book(
        R"({"kind":"instrument","name":"L","type":"rotating-laser","grade_step":1e-5,"keypad":{"main_plus":"falls","cross_side":"left","grade_unit":"permille"}}
)" + line(R"(,"crossfall":0.02)") +
        setup(R"(,"plane":{"main":-0.01,"towards":"D1"})"));
    const DialBasis basis = book.basis();
    const std::vector<std::string> card = keypad_card(basis, book.line().dials.at(0));
    ASSERT_GE(card.size(), 5U);
    EXPECT_NE(card[0].find("grade cleared"), std::string::npos);
    EXPECT_EQ(card[2], "main (X): key in +12.50 permille, the light falls along the main axis");
    EXPECT_EQ(card[3], "cross (Y): key in -20.00 permille, the light rises to the right");
    EXPECT_NE(card[4].find("still to change by +2.50 permille and -20.00 permille"), std::string::npos);
}

RC_GTEST_PROP(Dial, APlaneDialledAlongALineIsThatLineAgainWithinAStep, ()) {
    const auto pick = [](int low, int high) { return *rc::gen::inRange(low, high) / 1000.0; };
    const double gradient = pick(-80, 81);
    const double crossfall = pick(-80, 81);
    const double step = 1e-5;
    const Dialled book(
        std::string(laser) + R"({"kind":"line","name":"D1","plan":[[0,0],[)" +
        trimmed(pick(10000, 50000), 3) + "," + trimmed(pick(-50000, 50000), 3) +
        R"(]],"profile":[{"ch":0,"level":50},{"ch":40,"gradient":)" + trimmed(gradient, 7) +
        R"(}],"crossfall":)" + trimmed(crossfall, 7) + "}\n" +
        setup(R"(,"place":{"e":3,"n":4},"plane":{"bearing":)" + trimmed(pick(0, 360000), 3) + "}"));
    const Dials dials = book.line();
    RC_ASSERT(dials.dials.size() == 1U);
    const Spot from = PlanLine(book.book->lines[0], 0).at(0, 0);
    const Spot to = PlanLine(book.book->lines[0], 0).at(1, 0);
    const Axes back =
        turned(dials.dials[0].set, book.where.headings[0], {true, to.e - from.e, to.n - from.n});
    RC_ASSERT(std::fabs(back.main - gradient) <= step * std::sqrt(0.5) + 1e-12);
    RC_ASSERT(std::fabs(back.cross - crossfall) <= step * std::sqrt(0.5) + 1e-12);
}

}  // namespace fallwright
