#include "drain/pipe.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace fallwright::drain {

namespace {

PipeQuestion question(double fall, double flow = NAN, double depth = NAN) {
    return {0.15, fall, Friction::colebrook_white(0.0006), flow, depth, -1};
}

bool told(const PipeAnswer& answer, Code code) {
    return std::any_of(answer.findings.begin(), answer.findings.end(),
                       [code](const Finding& found) { return found.code == code; });
}

}  // namespace

TEST(Pipe, AFlowHasItsDepthAndCriticalState) {
    const PipeAnswer answer = answer_pipe(question(0.0125, 0.005), Unit::Metre);
    ASSERT_TRUE(answer.part);
    EXPECT_NEAR(answer.part->flow, 0.005, 1e-12);
    ASSERT_TRUE(answer.critical);
    // A steep drain: the water runs above its critical velocity, and the critical fall is flatter.
    EXPECT_GT(answer.part->froude(), 1);
    EXPECT_GT(answer.critical->depth, answer.part->depth);
    EXPECT_LT(answer.critical->fall, 0.0125);
    const PipeAnswer critical = answer_pipe(question(answer.critical->fall, 0.005), Unit::Metre);
    EXPECT_NEAR(critical.part->depth, answer.critical->depth, 1e-9);
    EXPECT_NEAR(critical.part->froude(), 1, 1e-6);
    EXPECT_TRUE(answer.findings.empty());
}

TEST(Pipe, AFlowAboveTheGreatestRunsUnderPressure) {
    const PipeAnswer answer = answer_pipe(question(0.0125, 0.03), Unit::Metre);
    EXPECT_FALSE(answer.part);
    EXPECT_TRUE(told(answer, Code::DrainOverfull));
    EXPECT_NEAR(uniform_full(answer.asked.friction, 0.15, answer.pressure_fall).flow, 0.03, 1e-12);
}

TEST(Pipe, WithoutFallNothingRuns) {
    for (const double fall : {0.0, -0.02}) {
        const PipeAnswer answer = answer_pipe(question(fall, 0.005), Unit::Metre);
        EXPECT_TRUE(told(answer, Code::DrainNoFall));
        EXPECT_FALSE(told(answer, Code::DrainOverfull));
        EXPECT_EQ(answer.full.velocity, 0);
        EXPECT_FALSE(answer.part);
        EXPECT_GT(answer.pressure_fall, 0);
        EXPECT_FALSE(answer_pipe(question(fall, NAN, 0.05), Unit::Metre).part);
    }
}

TEST(Pipe, OutsideTheRangeOfTheLawIsSaid) {
    PipeQuestion rough = question(0.0125);
    rough.friction.roughness = 0.01;
    EXPECT_TRUE(told(answer_pipe(rough, Unit::Metre), Code::DrainTooRough));
    PipeQuestion tiny = question(0.001);
    tiny.bore = 0.005;
    tiny.friction.roughness = 0;
    EXPECT_TRUE(told(answer_pipe(tiny, Unit::Metre), Code::DrainNotTurbulent));
    tiny.friction = Friction::by_manning(0.013);
    EXPECT_TRUE(answer_pipe(tiny, Unit::Metre).findings.empty());
}

// No bore, fall, friction, flow or depth that may be asked breaks anything.
RC_GTEST_PROP(PipeProperty, EveryQuestionHasAnAnswer, ()) {
    const auto power = [](int from, int to) {
        return std::pow(10, *rc::gen::inRange(from * 100, to * 100) / 100.0);
    };
    PipeQuestion asked;
    asked.bore = power(-6, 1);
    asked.fall = *rc::gen::element(0.0, -power(-8, 0), power(-8, 0), power(-18, -8));
    asked.friction = *rc::gen::arbitrary<bool>()
                         ? Friction::by_manning(power(-3, 0))
                         : Friction::colebrook_white(asked.bore * power(-9, 0) * 0.4, power(-8, -3));
    const int which = *rc::gen::inRange(0, 3);
    if (which == 1) asked.flow = *rc::gen::element(0.0, power(-20, 6));
    if (which == 2) asked.depth = asked.bore * *rc::gen::element(0.0, 1.0, power(-9, 0));
    const PipeAnswer answer = answer_pipe(asked, *rc::gen::element(Unit::Metre, Unit::Foot));
    RC_ASSERT(answer.full.velocity >= 0 && std::isfinite(answer.full.velocity));
    RC_ASSERT(answer.most.flow >= answer.full.flow * (1 - 1e-12));
    if (answer.part) {
        RC_ASSERT(answer.part->depth >= 0 && answer.part->depth <= asked.bore);
        RC_ASSERT(std::isfinite(answer.part->velocity));
    }
    if (answer.critical) RC_ASSERT(answer.critical->depth >= 0 && answer.critical->depth <= asked.bore);
    for (const CleansingVerdict& held : answer.rules)
        RC_ASSERT(!cleansing_sentence(held, {asked.bore, asked.fall, asked.friction}, Unit::Metre).empty());
}

}  // namespace fallwright::drain
