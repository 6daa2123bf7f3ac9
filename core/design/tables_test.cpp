// What set-out tables and dials ask of a design: its own points, and its stretches that are one plane.
#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string line(const std::string& fields) {
    return R"({"kind":"line","name":"L1",)" + fields + "}\n";
}

// "0 profile, 10 chamber" for reading.
std::string own_points(const Designed& d, const LevelOf& level_of = Designed::nothing) {
    const char* const words[] = {"profile", "curve from", "curve to", "summit",
                                 "low",     "crossfall",  "chamber",  "pipe end"};
    std::string text;
    for (const OwnPoint& point : d.line().own_points(level_of)) {
        if (!text.empty()) text += ", ";
        text += std::to_string(static_cast<int>(std::lround(point.ch))) + " " +
                words[static_cast<std::size_t>(point.kind)];
    }
    return text;
}

std::vector<PlaneStretch> planes(const std::string& fields) {
    return Designed(line(fields)).line().planes(Designed::nothing);
}

}  // namespace

TEST(OwnPoints, AreTheProfilesPointsCurvesSummitsChambersAndPipeEnds) {
    const Designed d(line(
        R"("use":"drain","profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":40},{"ch":100,"level":20}],
        "chambers":[{"name":"A","ch":100},{"name":"B","ch":10}],
        "pipes":[{"from":0,"to":60,"bore":0.15,"wall":0},{"from":60,"to":100,"bore":0.15,"wall":0}])"));
    EXPECT_EQ(own_points(d),
              "0 profile, 0 pipe end, 10 chamber, 30 curve from, 50 profile, 50 summit, 60 pipe end, "
              "70 curve to, 100 profile, 100 chamber, 100 pipe end");
}

TEST(OwnPoints, HaveALowPointInASagAndNoneWhereACurveOnlySteepens) {
    EXPECT_EQ(
        own_points(Designed(line(
            R"("profile":[{"ch":0,"level":21},{"ch":50,"level":20,"curve":40},{"ch":100,"level":21}])"))),
        "0 profile, 30 curve from, 50 profile, 50 low, 70 curve to, 100 profile");
    EXPECT_EQ(
        own_points(Designed(line(
            R"("profile":[{"ch":0,"level":21},{"ch":50,"level":20,"curve":40},{"ch":100,"level":18}])"))),
        "0 profile, 30 curve from, 50 profile, 70 curve to, 100 profile");
}

TEST(OwnPoints, LieWithinTheEndsOnly) {
    EXPECT_EQ(own_points(Designed(line(R"("use":"drain","profile":[{"ch":0,"level":21},{"ch":50,"level":20}],
        "pipes":[{"from":-1,"to":60,"bore":0.15,"wall":0}],"chambers":[{"name":"A","ch":70}])"))),
              "0 profile, 50 profile");
    EXPECT_EQ(own_points(Designed(line(R"("use":"drain","pipes":[{"from":0,"to":60,"bore":0.15}])"))), "");
}

TEST(OwnPoints, OfACurveThatHangsHaveTheirSummitOnceLevelsAreFound) {
    const Designed d(
        line(R"("profile":[{"ch":0,"under":"A"},{"ch":50,"level":21,"curve":40},{"ch":100,"level":20}])") +
        R"({"kind":"benchmark","point":"A","level":20})");
    EXPECT_EQ(own_points(d), "0 profile, 30 curve from, 50 profile, 70 curve to, 100 profile");
    EXPECT_EQ(own_points(d, [](NameId) { return 20.0; }),
              "0 profile, 30 curve from, 50 profile, 50 summit, 70 curve to, 100 profile");
}

TEST(Planes, AreTheStraightGrades) {
    const std::vector<PlaneStretch> found = planes(
        R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19},{"ch":60,"level":18}],"crossfall":0.02)");
    ASSERT_EQ(found.size(), 2u);
    EXPECT_DOUBLE_EQ(found[0].to, 40);
    EXPECT_NEAR(found[0].gradient, -0.025, 1e-12);
    EXPECT_DOUBLE_EQ(found[0].crossfall, 0.02);
    EXPECT_TRUE(found[0].to_left && found[0].to_right);
    EXPECT_DOUBLE_EQ(found[1].level, 19);
    EXPECT_NEAR(found[1].gradient, -0.05, 1e-12);
}

TEST(Planes, GoOnOverPointsThatChangeNothing) {
    const std::vector<PlaneStretch> found = planes(
        R"("profile":[{"ch":0,"level":20},{"ch":40,"gradient":"1 in 80 fall"},{"ch":100,"gradient":"1 in 80 fall"}])");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_DOUBLE_EQ(found[0].to, 100);
}

TEST(Planes, EndWhereAChamberSteps) {
    EXPECT_EQ(planes(R"("profile":[{"ch":0,"level":20},{"ch":80,"gradient":"1 in 80 fall"}],
        "chambers":[{"name":"A","ch":40,"in":19.5,"out":19.45}])")
                  .size(),
              2u);
}

TEST(Planes, LeaveCurvesOut) {
    const std::vector<PlaneStretch> found =
        planes(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":40},{"ch":100,"level":20}])");
    ASSERT_EQ(found.size(), 2u);
    EXPECT_DOUBLE_EQ(found[0].to, 30);
    EXPECT_DOUBLE_EQ(found[1].from, 70);
    EXPECT_NEAR(found[1].level, 20.6, 1e-12);
}

TEST(Planes, OfACamberAreTwoBesideEachOther) {
    const std::string camber =
        R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19}],"crossfall":[-0.025,-0.03])";
    const std::vector<PlaneStretch> found = planes(camber);
    ASSERT_EQ(found.size(), 2u);
    EXPECT_TRUE(found[0].to_left && !found[0].to_right);
    EXPECT_DOUBLE_EQ(found[0].crossfall, 0.025);
    EXPECT_TRUE(found[1].to_right && !found[1].to_left);
    EXPECT_DOUBLE_EQ(found[1].crossfall, -0.03);
    EXPECT_EQ(planes(camber + R"(,"edges":[0,3])").size(), 1u);
}

TEST(Planes, OfAPairThatIsOneSlopeAreOne) {
    EXPECT_EQ(planes(R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19}],"crossfall":["2.5 %","-2.5 %"])")
                  .size(),
              1u);
}

TEST(Planes, EndWhereThePlanTurns) {
    const std::string fields =
        R"("plan":[[0,0],[0,25],[20,40]],"profile":[{"ch":0,"level":20},{"ch":45,"level":)";
    const std::vector<PlaneStretch> sloped = planes(fields + "19}]");
    ASSERT_EQ(sloped.size(), 2u);
    EXPECT_DOUBLE_EQ(sloped[0].to, 25);
    EXPECT_NEAR(sloped[1].level, 20 - 25.0 / 45, 1e-12);
    EXPECT_EQ(planes(fields + "20}]").size(), 1u);
    EXPECT_EQ(planes(fields + R"(20}],"crossfall":0.02)").size(), 2u);
}

TEST(Planes, GoOnWhereThePlanTurnsByLessThanAnAxisIsAimed) {
    EXPECT_EQ(
        planes(R"("plan":[[0,0],[0,25],[0.002,50]],"profile":[{"ch":0,"level":20},{"ch":50,"level":19}])")
            .size(),
        1u);
    EXPECT_EQ(
        planes(R"("plan":[[0,0],[0,25],[0.05,50]],"profile":[{"ch":0,"level":20},{"ch":50,"level":19}])")
            .size(),
        2u);
    EXPECT_EQ(
        planes(R"("plan":[[0,0],[0,25],[0,5]],"profile":[{"ch":0,"level":20},{"ch":45,"level":19}])").size(),
        2u);
}

TEST(Planes, CountTheChainageFromTheStartOfThePlan) {
    const std::vector<PlaneStretch> found = planes(
        R"("start":1000,"plan":[[0,0],[0,25],[20,40]],"profile":[{"ch":990,"level":20},{"ch":1045,"level":19}])");
    ASSERT_EQ(found.size(), 2u);
    EXPECT_DOUBLE_EQ(found[0].to, 1025);
}

TEST(Planes, ThatHangUnderWhatIsNotFoundAreLeftOut) {
    const Designed d(line(R"("profile":[{"ch":0,"under":"A"},{"ch":50,"level":21},{"ch":100,"level":20}])") +
                     R"({"kind":"benchmark","point":"A","level":20})");
    EXPECT_EQ(d.line().planes(Designed::nothing).size(), 1u);
    ASSERT_EQ(d.line().planes([](NameId) { return 20.0; }).size(), 2u);
    EXPECT_NEAR(d.line().planes([](NameId) { return 20.0; })[0].gradient, 0.02, 1e-12);
}

}  // namespace fallwright
