#include "design/heights.h"

#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string line(const std::string& use, const std::string& fields) {
    return R"({"kind":"line","name":"L1","use":")" + use +
           R"(","profile":[{"ch":0,"level":20},{"ch":40,"level":19}],)" + fields + "}\n";
}

const std::string two_pipes =
    R"("pipes":[{"from":0,"to":20,"bore":0.15,"wall":0.01,"bedding":0.1,"collar":0.02},
    {"from":20,"to":40,"bore":0.225,"wall":0.015,"bedding":0.15}])";

}  // namespace

TEST(Heights, OfADrainCountFromItsPipe) {
    const Designed d(line("drain", two_pipes));
    for (const char* what : {"laid", "laid in", "laid out", "invert"})
        EXPECT_DOUBLE_EQ(d.level(what, 10), 19.75);
    EXPECT_NEAR(d.level("soffit", 10), 19.90, 1e-12);
    EXPECT_NEAR(d.level("crown", 10), 19.91, 1e-12);
    EXPECT_NEAR(d.level("collar", 10), 19.93, 1e-12);
    EXPECT_NEAR(d.level("bed", 10), 19.74, 1e-12);
    EXPECT_NEAR(d.level("formation", 10), 19.64, 1e-12);
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Heights, GroundPegAndUnknownSurfacesHaveNoDesign) {
    const Designed d(line("drain", two_pipes));
    for (const char* what : {"ground", "peg", "finished", "anything", ""})
        EXPECT_TRUE(std::isnan(d.level(what, 10))) << what;
}

TEST(Heights, WhatCountsFromAFigureThatIsNotGivenHasNoDesign) {
    const Designed d(line("drain", R"("pipes":[{"from":0,"to":40,"wall":0.01}])"));
    for (const char* what : {"soffit", "crown", "collar", "formation"})
        EXPECT_TRUE(std::isnan(d.level(what, 10))) << what;
    EXPECT_NEAR(d.level("bed", 10), 19.74, 1e-12);
    EXPECT_TRUE(std::isnan(Designed(line("drain", R"("outlets":[])")).level("bed", 10)));
}

TEST(Heights, WallThatIsNotGivenIsNoneAndThatIsSaidOnce) {
    const Designed d(
        line("drain",
             R"("pipes":[{"from":0,"to":20,"bore":0.15,"bedding":0.1},{"from":20,"to":40,"bore":0.15}])"));
    EXPECT_NEAR(d.level("crown", 10), 19.90, 1e-12);
    EXPECT_NEAR(d.level("formation", 10), 19.65, 1e-12);
    EXPECT_EQ(d.count(Code::WallAssumed), 1);
}

TEST(Heights, WherePipesMeetBelongToTheDownstreamPipe) {
    const Designed with(line("drain", two_pipes));
    EXPECT_NEAR(with.level("soffit", 20), 19.5 + 0.225, 1e-12);
    EXPECT_NEAR(with.level("soffit", 20, 0, Side::Before), 19.5 + 0.15, 1e-12);
    const Designed against(line("drain", R"("flow":"against",)" + two_pipes));
    EXPECT_NEAR(against.level("soffit", 20), 19.5 + 0.15, 1e-12);
}

TEST(Heights, OfARoadGoDownByItsLayers) {
    const Designed d(
        line("road", R"("layers":[{"what":"finished","thickness":0.04},{"what":"binder","thickness":0.06},
        {"what":"base","thickness":0.2}])"));
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 19.75);
    EXPECT_NEAR(d.level("binder", 10), 19.71, 1e-12);
    EXPECT_NEAR(d.level("base", 10), 19.65, 1e-12);
    EXPECT_NEAR(d.level("formation", 10), 19.45, 1e-12);
    EXPECT_TRUE(std::isnan(d.level("laid", 10)));
}

TEST(Heights, OfARoadWithoutLayersAreFinishedOnly) {
    const Designed d(line("road", R"("outlets":[])"));
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 19.75);
    EXPECT_TRUE(std::isnan(d.level("formation", 10)));
}

TEST(Heights, OfALayerNamedTwiceTheFirstStands) {
    const Designed d(
        line("road", R"("layers":[{"what":"base","thickness":0.1},{"what":"base","thickness":0.2}])"));
    EXPECT_DOUBLE_EQ(d.level("base", 10), 19.75);
    EXPECT_NEAR(d.level("formation", 10), 19.45, 1e-12);
    EXPECT_EQ(d.message(Code::LayerTwice), "line L1: layer base is given twice");
}

TEST(Heights, LayersOfADrainAreNotUsed) {
    const Designed d(line("drain", R"("layers":[{"what":"base","thickness":0.1}])"));
    EXPECT_TRUE(std::isnan(d.level("base", 10)));
    EXPECT_EQ(d.count(Code::LayersUnused), 1);
}

TEST(Heights, OfAKerbAndASlab) {
    EXPECT_DOUBLE_EQ(Designed(line("kerb", R"("outlets":[])")).level("kerb", 10), 19.75);
    EXPECT_DOUBLE_EQ(Designed(line("slab", R"("outlets":[])")).level("finished", 10), 19.75);
    EXPECT_TRUE(std::isnan(Designed(line("slab", R"("outlets":[])")).level("kerb", 10)));
}

TEST(Heights, OfALineOfOtherUseAreThoseOfBoth) {
    const Designed d(line("other", two_pipes + R"(,"layers":[{"what":"finished","thickness":0.3}])"));
    EXPECT_DOUBLE_EQ(d.level("laid", 10), 19.75);
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 19.75);
    EXPECT_NEAR(d.level("crown", 10), 19.91, 1e-12);
    EXPECT_NEAR(d.level("formation", 10), 19.45, 1e-12);
    EXPECT_NEAR(Designed(line("other", two_pipes)).level("formation", 10), 19.64, 1e-12);
}

TEST(Heights, NamedInWhatsAddAndWin) {
    const Designed d(line("drain", two_pipes + R"(,"whats":{"string":2.5,"crown":0.17,"peg":1})"));
    EXPECT_DOUBLE_EQ(d.level("string", 10), 22.25);
    EXPECT_NEAR(d.level("crown", 10), 19.92, 1e-12);
    EXPECT_DOUBLE_EQ(d.level("peg", 10), 20.75);
}

TEST(Crossfall, OfOneNumberRisesToTheRight) {
    const Designed d(line("road", R"("crossfall":"2.5 %")"));
    EXPECT_NEAR(d.level("finished", 10, 4), 19.85, 1e-12);
    EXPECT_NEAR(d.level("finished", 10, -4), 19.65, 1e-12);
}

TEST(Crossfall, OfAPairRisesOutwardsOnEachSide) {
    const Designed d(line("road", R"("crossfall":["-2 %","3 %"])"));
    EXPECT_NEAR(d.level("finished", 10, -4), 19.67, 1e-12);
    EXPECT_NEAR(d.level("finished", 10, 4), 19.87, 1e-12);
}

TEST(Crossfall, NotGivenIsLevelAcross) {
    EXPECT_DOUBLE_EQ(Designed(line("drain", two_pipes)).level("laid", 10, 3), 19.75);
}

TEST(Edges, AreDistancesOutwards) {
    const Designed d(line("road", R"("edges":[2.75,3.5])"));
    EXPECT_DOUBLE_EQ(d.line().edges()[0].value, -2.75);
    EXPECT_DOUBLE_EQ(d.line().edges()[1].value, 3.5);
}

TEST(Edges, WithoutWidthAreNotUsed) {
    const Designed d(line("road", R"("edges":[-2.75,2.75])"));
    EXPECT_FALSE(d.line().edges()[0].has());
    EXPECT_EQ(d.message(Code::EdgesCrossed), "line L1: edges -2.750 and 2.750 leave no width between them");
}

TEST(Pipes, ThatOverlapAreLeftOutAndHolesAreNoted) {
    const Designed d(line(
        "drain", R"("pipes":[{"from":0,"to":20,"bore":0.15,"wall":0},{"from":19,"to":30,"bore":0.3,"wall":0},
        {"from":35,"to":34,"bore":0.3,"wall":0},{"from":30,"to":40,"bore":0.2,"wall":0}])"));
    EXPECT_NEAR(d.level("soffit", 19.5), 19.5125 + 0.15, 1e-12);
    EXPECT_TRUE(std::isnan(d.level("soffit", 25)));
    EXPECT_NEAR(d.level("soffit", 35), 19.125 + 0.2, 1e-12);
    EXPECT_EQ(d.message(Code::PipeOverlap),
              "line L1: the pipe from 19.000 to 30.000 overlaps one written before it");
    EXPECT_EQ(d.message(Code::PipeOrder), "line L1: a pipe goes from 35.000 to 34.000");
    EXPECT_EQ(d.message(Code::PipeHole), "line L1: no pipe lies from 20.000 to 30.000");
}

// Pipes may be listed from chamber wall to chamber wall.
TEST(Pipes, ThatLeaveAChamberFreeAreNoHole) {
    const Designed d(line(
        "drain",
        R"("pipes":[{"from":0,"to":19.5,"bore":0.15,"wall":0},{"from":20.5,"to":40,"bore":0.15,"wall":0}],
        "chambers":[{"name":"C","ch":20}])"));
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Pipes, BeyondTheProfileAreReported) {
    const Designed d(line("drain", R"("pipes":[{"from":0,"to":41,"bore":0.15,"wall":0}])"));
    EXPECT_EQ(
        d.message(Code::OffProfile),
        "line L1: a pipe's end at chainage 41.000 lies beyond the profile, which goes from 0.000 to 40.000");
}

}  // namespace fallwright
