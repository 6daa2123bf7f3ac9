#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string drain(const std::string& fields, const std::string& name = "D1") {
    return R"({"kind":"line","name":")" + name + R"(","use":"drain",)" + fields + "}\n";
}

}  // namespace

TEST(Chambers, StepTheProfile) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":30,"in":19.52,"out":19.48}])"));
    EXPECT_DOUBLE_EQ(d.level("laid in", 30), 19.52);
    EXPECT_DOUBLE_EQ(d.level("laid out", 30), 19.48);
    EXPECT_DOUBLE_EQ(d.level("laid", 30), 19.48);
    EXPECT_NEAR(d.level("laid", 15), (20 + 19.52) / 2, 1e-12);
    EXPECT_NEAR(d.level("laid", 45), (19.48 + 19) / 2, 1e-12);
}

TEST(Chambers, GradientAfterOneCountsFromItsOut) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"gradient":"1 in 60 fall"}],
        "chambers":[{"name":"C","ch":30,"in":19.5,"out":19.45}])"));
    EXPECT_NEAR(d.level("laid", 60), 19.45 - 0.5, 1e-12);
    EXPECT_NEAR(d.gradient(40), -1.0 / 60, 1e-12);
}

// Run against its chainage, the stretch after a chamber begins where water comes in.
TEST(Chambers, GradientAfterOneCountsFromItsInWhereWaterRunsAgainstChainage) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":19},{"ch":60,"gradient":"1 in 60 rise"}],
        "chambers":[{"name":"C","ch":30,"in":19.55,"out":19.5}])"));
    EXPECT_FALSE(d.line().runs_with_chainage(Designed::nothing));
    EXPECT_DOUBLE_EQ(d.level("laid out", 30), 19.5);
    EXPECT_DOUBLE_EQ(d.level("laid in", 30), 19.55);
    EXPECT_NEAR(d.level("laid", 60), 19.55 + 0.5, 1e-12);
    EXPECT_NEAR(d.gradient(40), 1.0 / 60, 1e-12);
}

TEST(Chambers, OutIsInUnlessGiven) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":30,"in":19.6}])"));
    EXPECT_DOUBLE_EQ(d.level("laid in", 30), 19.6);
    EXPECT_DOUBLE_EQ(d.level("laid out", 30), 19.6);
}

TEST(Chambers, InIsTheProfileWhereOnlyOutIsGiven) {
    const Designed levels(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":30,"out":19.4}])"));
    EXPECT_NEAR(levels.level("laid in", 30), 19.5, 1e-12);
    const Designed gradient(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"gradient":"1 in 100 fall"}],
        "chambers":[{"name":"C","ch":30,"out":19.6},{"name":"no invert","ch":40}])"));
    EXPECT_NEAR(gradient.level("laid in", 30), 19.7, 1e-12);
    EXPECT_NEAR(gradient.level("laid", 60), 19.3, 1e-12);
    const Designed next(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"B","ch":20,"out":19.6},{"name":"C","ch":40,"in":19.2}])"));
    EXPECT_NEAR(next.level("laid in", 20), 19.6, 1e-12);
    EXPECT_NEAR(next.level("laid in", 40), 19.2, 1e-12);
    EXPECT_NEAR(next.level("laid", 30), 19.4, 1e-12);
}

TEST(Chambers, AloneMakeAProfile) {
    const Designed d(
        drain(R"("chambers":[{"name":"B","ch":24,"in":19.7,"out":19.68},{"name":"A","ch":0,"out":20},
        {"name":"C","ch":48,"in":19.4}])"));
    EXPECT_DOUBLE_EQ(d.level("laid in", 0), 20);
    EXPECT_NEAR(d.level("laid", 12), 19.85, 1e-12);
    EXPECT_NEAR(d.level("laid", 36), 19.54, 1e-12);
    EXPECT_TRUE(d.line().runs_with_chainage(Designed::nothing));
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Chambers, AtTheHeadHaveAnInOfTheirOwn) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":24.600},{"ch":24,"gradient":"1 in 80 fall"}],
        "chambers":[{"name":"MH 1","ch":0,"in":24.620,"out":24.600}])"));
    EXPECT_DOUBLE_EQ(d.level("laid in", 0), 24.62);
    EXPECT_DOUBLE_EQ(d.level("laid", 0), 24.6);
    EXPECT_NEAR(d.level("laid", 24), 24.3, 1e-12);
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Chambers, OverrideAProfilePointAndSaySo) {
    const Designed d(
        drain(R"("profile":[{"ch":0,"level":20},{"ch":30,"gradient":"1 in 60 fall"},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":30,"in":19.48}])"));
    EXPECT_DOUBLE_EQ(d.level("laid", 30), 19.48);
    EXPECT_EQ(
        d.message(Code::ProfileOverridden),
        "line D1: the profile at chainage 30.000 as written lies 0.020 above what the chamber or join there "
        "gives, which holds");
}

// Levels to the millimetre and 1 in a whole number do not meet exactly.
TEST(Chambers, WithinFiveMillimetresOfTheProfileSayNothing) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":24.6},{"ch":24,"gradient":"1 in 83 fall"}],
        "chambers":[{"name":"C","ch":24,"in":24.31}])"));
    EXPECT_DOUBLE_EQ(d.level("laid", 24), 24.31);
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Chambers, BeyondTheProfileAreNotUsed) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":600,"in":18.9}],"outlets":[61])"));
    EXPECT_DOUBLE_EQ(d.line().profile().to(), 60);
    EXPECT_EQ(
        d.message(Code::OffProfile),
        "line D1: chamber C at chainage 600.000 lies beyond the profile, which goes from 0.000 to 60.000");
    EXPECT_EQ(d.count(Code::OffProfile), 2);
}

TEST(Chambers, OfOneChainageTheFirstStands) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"B","ch":30,"in":19.5},{"name":"C","ch":30,"in":19.4}])"));
    EXPECT_DOUBLE_EQ(d.level("laid", 30), 19.5);
    EXPECT_EQ(d.message(Code::ChamberTwice), "line D1: chambers B and C are both at chainage 30.000");
}

TEST(Chambers, WhoseOutIsAboveTheirInAreReported) {
    const Designed d(drain(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}],
        "chambers":[{"name":"C","ch":30,"in":19.48,"out":19.50}])"));
    EXPECT_EQ(d.message(Code::ChamberRises), "line D1: at chamber C out lies 0.020 above in");
}

TEST(Flow, RunsAsTheEndsOfTheProfileFall) {
    const auto with = [](const std::string& fields) {
        return Designed(drain(fields)).line().runs_with_chainage(Designed::nothing);
    };
    EXPECT_TRUE(with(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":19}])"));
    EXPECT_FALSE(with(R"("profile":[{"ch":0,"level":19},{"ch":60,"level":20}])"));
    EXPECT_TRUE(with(R"("profile":[{"ch":0,"level":19},{"ch":60,"level":19}])"));
    EXPECT_TRUE(
        with(R"("profile":[{"ch":0,"level":10},{"ch":10,"gradient":"1 %"},{"ch":20,"gradient":"-1 %"}])"));
    EXPECT_TRUE(with(R"("outlets":[])"));
    EXPECT_TRUE(with(R"("chambers":[{"name":"A","ch":0,"out":20},{"name":"B","ch":9,"in":19}])"));
    EXPECT_FALSE(with(R"("chambers":[{"name":"A","ch":0,"in":19},{"name":"B","ch":9,"out":20}])"));
}

TEST(Flow, AsWrittenWinsAndARiseAgainstItIsReported) {
    const Designed d(drain(R"("flow":"against","profile":[{"ch":0,"level":20},{"ch":60,"level":19}])"));
    EXPECT_FALSE(d.line().runs_with_chainage(Designed::nothing));
    EXPECT_EQ(d.message(Code::FlowUphill),
              "line D1: water is to run against chainage, and the design rises 1.000 that way");
}

TEST(Flow, OfALineThatHangsShowsInTheLevelsFound) {
    const Designed d(drain(R"("profile":[{"ch":0,"under":"A"},{"ch":60,"under":"B"}])") +
                     R"({"kind":"benchmark","point":"A","level":1}
{"kind":"benchmark","point":"B","level":1})");
    const auto b_at = [&d](double level) {
        return d.line().runs_with_chainage(
            [&](NameId point) { return d.book().name(point) == "B" ? level : 10; });
    };
    EXPECT_TRUE(b_at(9));
    EXPECT_FALSE(b_at(11));
    EXPECT_TRUE(d.line().runs_with_chainage(Designed::nothing));
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Flow, ThatTheDesignNeedsAndOnlyLevelsTellIsAssumedAlways) {
    const Designed d(drain(R"("profile":[{"ch":0,"under":"A"},{"ch":60,"under":"B"}],
        "chambers":[{"name":"C","ch":30,"in":5,"out":4.9}])") +
                     R"({"kind":"benchmark","point":"A","level":1}
{"kind":"benchmark","point":"B","level":1})");
    EXPECT_EQ(d.count(Code::FlowAssumed), 1);
    EXPECT_TRUE(d.line().runs_with_chainage(
        [&d](NameId point) { return d.book().name(point) == "B" ? 11.0 : 10.0; }));
    EXPECT_DOUBLE_EQ(d.level("laid in", 30), 5);
}

// One point they both hang under drops out of the difference.
TEST(Flow, OfEndsUnderOnePointIsKnownWithoutIt) {
    const Designed d(drain(R"("profile":[{"ch":0,"under":"A"},{"ch":60,"under":"A","by":-0.5}],
        "chambers":[{"name":"C","ch":30,"out":4.9,"in":5}])") +
                     R"({"kind":"benchmark","point":"A","level":1})");
    EXPECT_FALSE(d.line().runs_with_chainage(Designed::nothing));
    EXPECT_EQ(d.count(Code::FlowAssumed), 0);
}

}  // namespace fallwright
