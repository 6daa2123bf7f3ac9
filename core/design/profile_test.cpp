#include "design/profile.h"

#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string line(const std::string& fields) {
    return R"({"kind":"line","name":"L1","use":"road",)" + fields + "}\n";
}

}  // namespace

TEST(Profile, IsStraightBetweenLevels) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19}])"));
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 19.75);
    EXPECT_NEAR(d.gradient(10), -0.025, 1e-12);
    EXPECT_TRUE(d.designs().findings.empty());
}

TEST(Profile, GradientsCountFromThePointBefore) {
    const Designed d(line(R"("profile":[{"ch":10,"level":20},{"ch":50,"gradient":"1 in 40 fall"},
        {"ch":70,"gradient":"2 %"}])"));
    EXPECT_DOUBLE_EQ(d.level("finished", 50), 19);
    EXPECT_DOUBLE_EQ(d.level("finished", 70), 19.4);
}

TEST(Profile, HasNoDesignBeyondItsEnds) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19}])"));
    EXPECT_TRUE(std::isnan(d.level("finished", -0.01)));
    EXPECT_TRUE(std::isnan(d.level("finished", 40.01)));
    EXPECT_DOUBLE_EQ(d.level("finished", 40.0004), 19);
}

TEST(Profile, BreaksAtACorner) {
    const Designed d(
        line(R"("profile":[{"ch":0,"level":20},{"ch":10,"level":20.2},{"ch":20,"level":20.1}])"));
    EXPECT_NEAR(d.gradient(10, Side::Before), 0.02, 1e-12);
    EXPECT_NEAR(d.gradient(10, Side::After), -0.01, 1e-12);
}

TEST(Profile, OfOnePointIsThereOnly) {
    const Designed d(line(R"("profile":[{"ch":5,"level":20}])"));
    EXPECT_DOUBLE_EQ(d.level("finished", 5), 20);
    EXPECT_TRUE(std::isnan(d.level("finished", 6)));
    EXPECT_TRUE(std::isnan(d.gradient(5)));
    EXPECT_EQ(d.count(Code::ProfileSingle), 1);
}

TEST(Profile, OutOfOrderGivesNoDesign) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":40,"level":19},{"ch":40,"level":18}])"));
    EXPECT_FALSE(d.line().any());
    EXPECT_EQ(d.message(Code::ProfileOrder), "line L1: chainage 40.000 does not lie beyond 40.000 before it");
}

// The middle of a parabola lies (g2 - g1) L / 8 above its corner (any textbook of route surveying).
TEST(Profile, MiddleOfACurveLiesAnEighthOfTheChangeTimesLengthFromItsCorner) {
    const Designed d(
        line(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":40},{"ch":100,"level":20}])"));
    EXPECT_NEAR(d.level("finished", 50), 21 - 0.04 * 40 / 8, 1e-12);
    EXPECT_NEAR(d.line().curvature(50, Side::After).constant, -0.001, 1e-15);
}

TEST(Profile, CurveEndingWhereTheNextBeginsHasRoom) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":60},
        {"ch":100,"level":20,"curve":40},{"ch":150,"level":21}])"));
    EXPECT_TRUE(d.designs().findings.empty());
    EXPECT_NEAR(d.gradient(80, Side::Before), -0.02, 1e-12);
    EXPECT_NEAR(d.gradient(80, Side::After), -0.02, 1e-12);
}

TEST(Profile, OverlappingCurvesAreBothRefused) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":60},
        {"ch":100,"level":20,"curve":60},{"ch":150,"level":21}])"));
    EXPECT_EQ(d.count(Code::CurveRefused), 2);
    EXPECT_EQ(d.message(Code::CurveRefused), "line L1: the curve at chainage 50.000 overlaps its neighbour");
    EXPECT_TRUE(std::isnan(d.level("finished", 50)));
    EXPECT_TRUE(std::isnan(d.level("finished", 75)));
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 20.2);
    EXPECT_NEAR(d.level("finished", 140), 20.8, 1e-12);
}

TEST(Profile, CurveReachingPastTheNextCornerIsRefused) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":60},
        {"ch":70,"level":21},{"ch":150,"level":20}])"));
    EXPECT_EQ(d.count(Code::CurveRefused), 1);
    EXPECT_TRUE(std::isnan(d.level("finished", 75)));
    EXPECT_DOUBLE_EQ(d.level("finished", 110), 20.5);
}

TEST(Profile, CurvePastAnEndIsRefused) {
    const Designed d(
        line(R"("profile":[{"ch":0,"level":20},{"ch":10,"level":21,"curve":30},{"ch":60,"level":20}])"));
    EXPECT_EQ(d.message(Code::CurveRefused),
              "line L1: the curve at chainage 10.000 runs past an end of the profile");
    EXPECT_TRUE(std::isnan(d.level("finished", 0)));
    EXPECT_TRUE(std::isnan(d.level("finished", 20)));
    EXPECT_FALSE(std::isnan(d.level("finished", 30)));
}

TEST(Profile, CurveAtAnEndIsRefused) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":60,"level":20,"curve":20}])"));
    EXPECT_EQ(d.message(Code::CurveRefused),
              "line L1: the curve at chainage 60.000 stands at an end of the profile");
    EXPECT_DOUBLE_EQ(d.level("finished", 40), 20);
    EXPECT_TRUE(std::isnan(d.level("finished", 55)));
}

TEST(Profile, CurveWhereAChamberStepsIsRefused) {
    const Designed d(
        line(R"("profile":[{"ch":0,"level":20},{"ch":30,"level":19,"curve":10},{"ch":60,"level":18}],
        "chambers":[{"name":"C","ch":30,"in":19.0,"out":18.9}])"));
    EXPECT_EQ(d.message(Code::CurveRefused),
              "line L1: the curve at chainage 30.000 stands where a chamber steps");
}

// A refused curve that reaches over another's corner takes that one with it: what it covers is not known.
TEST(Profile, NoDesignShowsUnderARefusedCurve) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":50,"level":21,"curve":10},
        {"ch":60,"level":20,"curve":100},{"ch":150,"level":21}])"));
    EXPECT_EQ(d.count(Code::CurveRefused), 2);
    for (const double ch : {11.0, 45.0, 50.0, 57.0, 109.0})
        EXPECT_TRUE(std::isnan(d.level("finished", ch))) << ch;
    EXPECT_DOUBLE_EQ(d.level("finished", 10), 20.2);
}

}  // namespace fallwright
