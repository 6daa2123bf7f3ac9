#include "drain/trench.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <string>

#include "drain/trench_section.h"
#include "preset/bulking.h"
#include "setout/set_out_book.h"

namespace fallwright::drain {

namespace {

constexpr double pi = 3.14159265358979323846;

Pipe pipe_of(double bore, double wall, double bedding) {
    Pipe pipe;
    pipe.bore.value = bore;
    pipe.wall.value = wall;
    pipe.bedding.value = bedding;
    return pipe;
}

TrenchRule own_width(double width, double batter = 0) {
    TrenchRule rule;
    rule.width = width;
    rule.batter = batter;
    return rule;
}

double millimetres(int from, int to) {
    return *rc::gen::inRange(from, to + 1) / 1000.0;
}

TrenchRule any_rule() {
    TrenchRule rule = own_width(millimetres(300, 2000), millimetres(0, 1500));
    rule.surround = millimetres(0, 400);
    if (*rc::gen::arbitrary<bool>()) {
        const auto rules = preset::trench_width_presets();
        rule.preset = &rules[*rc::gen::inRange<std::size_t>(0, rules.size())];
    }
    return rule;
}

Pipe any_pipe() {
    return pipe_of(millimetres(75, 1500), millimetres(0, 150), millimetres(0, 300));
}

Dug dug_of(const TrenchRule& rule, const Pipe& pipe, double length, double depth1, double depth2) {
    Dug dug;
    std::array<double, 2> weights = {0, 0};
    TrenchSection(rule, pipe).add_piece(length, depth1, depth2, dug, weights);
    return dug;
}

}  // namespace

// By hand: 20 m at 1.5 m, 0.6 m wide, a pipe of 170 mm outside on 100 mm of bedding.
TEST(Trench, ALevelTrenchWithUprightSides) {
    const Dug dug = dug_of(own_width(0.6), pipe_of(0.15, 0.01, 0.1), 20, 1.5, 1.5);
    EXPECT_NEAR(dug.dug, 18, 1e-12);
    EXPECT_NEAR(dug.by_end_areas, 18, 1e-12);
    EXPECT_NEAR(dug.bedding, 1.2, 1e-12);
    EXPECT_NEAR(dug.pipe, pi / 4 * 0.17 * 0.17 * 20, 1e-12);
    EXPECT_NEAR(dug.surround, 0.6 * 0.32 * 20 - dug.pipe, 1e-12);
    EXPECT_NEAR(dug.backfill, 18 - 1.2 - 3.84, 1e-12);
}

// TQ-04 Survey question with working: 11 m wide, sides 2 to 1, depths 0.5 and 2.5 over 150 m: 3250 by
// prismoid, 3450 by end areas. The pipe is a thread, so that it takes nothing away.
TEST(Trench, LeaningSidesByPrismoidAndByEndAreas) {
    const Dug dug = dug_of(own_width(11, 2), pipe_of(1e-9, 0, 0), 150, 0.5, 2.5);
    EXPECT_NEAR(dug.dug, 3250, 0.5);
    EXPECT_NEAR(dug.by_end_areas, 3450, 0.5);
}

// TQ-01 from memory: 160 mm outside takes 0.56 m under 1 m of depth, 0.80 m from there, 0.90 m over 1.75 m.
// From 0.5 to 2.5 m over 20 m the three stand for 5, 7.5 and 7.5 m with mean depths 0.75, 1.375 and 2.125.
TEST(Trench, TheWidthStepsWithTheDepth) {
    TrenchRule rule;
    rule.preset = preset::find_trench_width("trench-en-1610-supported");
    const Dug dug = dug_of(rule, pipe_of(0.15, 0.005, 0), 20, 0.5, 2.5);
    EXPECT_NEAR(dug.dug, 5 * 0.56 * 0.75 + 7.5 * 0.8 * 1.375 + 7.5 * 0.9 * 2.125, 1e-9);
}

TEST(Trench, NothingIsDugAboveTheGround) {
    const Dug out = dug_of(own_width(0.6), pipe_of(0.15, 0.01, 0.1), 20, -1, -0.5);
    EXPECT_EQ(out.dug, 0);
    EXPECT_EQ(out.pipe, 0);
    // Half of it comes out: a triangle 10 m long and 1 m deep.
    EXPECT_NEAR(dug_of(own_width(0.6), pipe_of(0.15, 0.01, 0.1), 20, -1, 1).dug, 0.6 * 10 * 1 / 2.0, 1e-12);
    EXPECT_NEAR(dug_of(own_width(0.1), pipe_of(0.15, 0.01, 0.1), 1, 1, 1).dug, 0.17,
                1e-12);  // as wide as the pipe
}

// TQ-09: 200 x 20 x 2 m at 40 % is 8000 in place, 11200 loose; 296 cubic yards at 40 % are 414 (414.8) loose.
TEST(Trench, SpoilTakesMoreRoomThanTheHole) {
    TrenchRule rule;
    rule.bulking = preset::find_bulking("bulking-clay-damp")->ratio;
    rule.load = 9;
    Dug dug;
    dug.dug = 200.0 * 20 * 2;
    dug.backfill = 8000 - 900;
    const Spoil spoil = spoil_of(dug, rule);
    EXPECT_NEAR(spoil.loose, 11200, 1e-9);
    EXPECT_EQ(spoil.loads, 1245);  // 1244.4
    EXPECT_NEAR(spoil.surplus_loose, 1260, 1e-9);
    EXPECT_EQ(spoil.surplus_loads, 140);
    dug.dug = 296;
    EXPECT_NEAR(spoil_of(dug, rule).loose, 414.4, 1e-9);
    rule.load = NAN;
    EXPECT_TRUE(std::isnan(spoil_of(dug, rule).loads));
}

// Against the areas summed up over two thousand slices, whatever bends on the way.
RC_GTEST_PROP(TrenchProperty, VolumesAreTheIntegralOfTheSections, ()) {
    const TrenchRule rule = any_rule();
    const Pipe pipe = any_pipe();
    const double d1 = millimetres(-500, 5000);
    const double d2 = millimetres(-500, 5000);
    const TrenchSection section(rule, pipe);
    constexpr int slices = 2000;
    SectionAreas sum;
    for (int i = 0; i < slices; ++i) {
        const double depth = d1 + (d2 - d1) * (i + 0.5) / slices;
        const SectionAreas areas = section.areas(depth, section.width(depth));
        sum.dug += areas.dug;
        sum.bedding += areas.bedding;
        sum.surround += areas.surround;
        sum.pipe += areas.pipe;
    }
    const Dug dug = dug_of(rule, pipe, slices, d1, d2);
    const auto close = [](double a, double b) { return std::fabs(a - b) <= 2e-3 * std::fabs(b) + 2; };
    RC_ASSERT(close(dug.dug, sum.dug));
    RC_ASSERT(close(dug.bedding, sum.bedding));
    RC_ASSERT(close(dug.surround, sum.surround));
    RC_ASSERT(close(dug.pipe, sum.pipe));
    RC_ASSERT(close(dug.backfill, sum.dug - sum.bedding - sum.surround - sum.pipe));
}

RC_GTEST_PROP(TrenchProperty, TwoPartsAddUpToTheWhole, ()) {
    const TrenchRule rule = any_rule();
    const Pipe pipe = any_pipe();
    const double d1 = millimetres(-500, 5000);
    const double d2 = millimetres(-500, 5000);
    const double share = millimetres(1, 999);
    const double between = d1 + (d2 - d1) * share;
    const Dug whole = dug_of(rule, pipe, 30, d1, d2);
    const Dug first = dug_of(rule, pipe, 30 * share, d1, between);
    const Dug second = dug_of(rule, pipe, 30 * (1 - share), between, d2);
    RC_ASSERT(std::fabs(first.dug + second.dug - whole.dug) < 1e-8);
    RC_ASSERT(std::fabs(first.bedding + second.bedding - whole.bedding) < 1e-8);
    RC_ASSERT(std::fabs(first.surround + second.surround - whole.surround) < 1e-8);
    RC_ASSERT(std::fabs(first.backfill + second.backfill - whole.backfill) < 1e-8);
}

RC_GTEST_PROP(TrenchProperty, DeeperIsNeverLess, ()) {
    const TrenchRule rule = any_rule();
    const Pipe pipe = any_pipe();
    const double d1 = millimetres(-500, 5000);
    const double d2 = millimetres(-500, 5000);
    const Dug dug = dug_of(rule, pipe, 30, d1, d2);
    const Dug deeper = dug_of(rule, pipe, 30, d1 + millimetres(0, 500), d2 + millimetres(0, 500));
    RC_ASSERT(deeper.dug >= dug.dug - 1e-9);
    RC_ASSERT(deeper.pipe >= dug.pipe - 1e-9);
}

// What the volume grows by for a little more depth at one end, the width held.
RC_GTEST_PROP(TrenchProperty, WeightsAreTheSlopeOfTheVolume, ()) {
    const TrenchRule rule = own_width(millimetres(2000, 3000), millimetres(0, 1500));
    const Pipe pipe = any_pipe();
    const double d1 = millimetres(10, 5000);
    const double d2 = millimetres(10, 5000);
    Dug dug;
    std::array<double, 2> weights = {0, 0};
    TrenchSection(rule, pipe).add_piece(30, d1, d2, dug, weights);
    constexpr double step = 1e-5;
    const double first = (dug_of(rule, pipe, 30, d1 + step, d2).dug - dug.dug) / step;
    const double last = (dug_of(rule, pipe, 30, d1, d2 + step).dug - dug.dug) / step;
    RC_ASSERT(std::fabs(first - weights[0]) < 1e-2);
    RC_ASSERT(std::fabs(last - weights[1]) < 1e-2);
}

// Ground 1.6 m and 2.0 m over the bottom, read in one set-up; 40 m of one pipe, 0.6 m wide.
TEST(Trench, OfALineWithItsUncertainty) {
    const SetOutBook book(R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"I","type":"optical-level","collimation_sd":0,"reading_sd":0.001,"sd_per_m":0}
{"kind":"line","name":"D1","use":"drain","profile":[{"ch":0,"level":48.51},{"ch":40,"gradient":-0.01}],"pipes":[{"from":0,"to":20,"bore":0.15,"wall":0.01,"bedding":0.1},{"from":20,"to":40,"bore":0.15,"wall":0.01,"bedding":0.1}]}
{"kind":"rule","name":"trench","values":{"width":0.6}}
{"kind":"setup","name":"S","instrument":"I"}
{"kind":"reading","point":"BM","sight":"back","staff":1.5}
{"kind":"reading","line":"D1","ch":0,"what":"ground","staff":1.5}
{"kind":"reading","line":"D1","ch":40,"what":"ground","staff":1.5}
)");
    const SetoutBasis basis = book.basis();
    Findings findings;
    const TrenchRule rule = trench_rule(book.book(), book.book().lines[0], findings);
    const Trench trench = trench_of(basis, 0, rule, findings);
    EXPECT_TRUE(findings.empty());
    ASSERT_EQ(trench.stretches.size(), 1U);  // two pipes of one kind
    EXPECT_NEAR(trench.total.dug, 0.6 * 40 * 1.8, 1e-6);
    // The light, 1 mm and 0.3 mm of the benchmark's foot, moves both ends; each end has 1 mm and 10 mm of
    // foot.
    const double shared = 24 * 24 * (1e-6 + 0.09e-6);
    const double own = 2 * 12 * 12 * (1e-6 + 1e-4);
    EXPECT_NEAR(trench.total.dug_sd, std::sqrt(shared + own), 1e-6);
    EXPECT_NEAR(trench.stretches[0].volumes.dug_sd, trench.total.dug_sd, 1e-9);
    EXPECT_NEAR(trench.stretches[0].deepest, 2.0, 1e-6);
}

TEST(Trench, WhatIsNotKnownIsLeftOutAndSaid) {
    const SetOutBook book(R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"I","type":"optical-level"}
{"kind":"line","name":"D1","use":"drain","profile":[{"ch":0,"level":48.5},{"ch":40,"gradient":-0.01}],"pipes":[{"from":0,"to":20,"bore":0.15,"wall":0.01,"bedding":0.1},{"from":20,"to":40,"bore":0.15,"wall":0.01}]}
{"kind":"setup","name":"S","instrument":"I"}
{"kind":"reading","point":"BM","sight":"back","staff":1.5}
{"kind":"reading","line":"D1","ch":5,"what":"ground","staff":1.5}
{"kind":"reading","line":"D1","ch":40,"what":"ground","staff":1.5}
)");
    const SetoutBasis basis = book.basis();
    Findings findings;
    const TrenchRule rule = trench_rule(book.book(), book.book().lines[0], findings);
    const Trench trench = trench_of(basis, 0, rule, findings);
    ASSERT_EQ(findings.size(), 3U);
    EXPECT_EQ(findings[0].code, Code::PresetFromMemory);
    EXPECT_NE(findings[1].message.find("5.000 m of its trench has no ground"), std::string::npos);
    EXPECT_NE(findings[2].message.find("20.000 m of its trench has no bottom"), std::string::npos);
    EXPECT_NEAR(trench.stretches[0].left_out, 5, 1e-9);
}

}  // namespace fallwright::drain
