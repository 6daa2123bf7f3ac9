// Crossfall that changes along the line: superelevation run-on, twists, what is still a plane.
#include "design/across.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

std::string road(const std::string& fields) {
    return R"({"kind":"line","name":"R1","use":"road",)" + fields + "}\n";
}

// VC-10: from a camber of 2 % to 6 % of superelevation, the outer (left) lane turning alone until it is in
// one plane with the inner one, then both. Road geometry exam question with solution,
// askfilo.com/user-question-answers-smart-solutions (address in cases/published/road-levels.case).
const char* const run_on = R"("profile":[{"ch":1100,"level":20},{"ch":1300,"level":20}],"edges":[4.4,4.4],
 "crossfall":[{"ch":1150.55,"left":"-2 %","right":"-2 %"},{"ch":1200.55,"left":"2 %","right":"-2 %"},
 {"ch":1250.55,"left":"6 %","right":"-6 %"}])";

std::vector<PlaneStretch> planes(const std::string& fields) {
    return Designed(road(fields)).line().planes(Designed::nothing);
}

}  // namespace

TEST(Across, TurnsTheOuterLaneAtAnEvenRate) {
    const Designed d(road(run_on));
    const auto outer = [&d](double ch) { return d.level("finished", ch, -4.4) - 20; };
    EXPECT_NEAR(outer(1150.55), -0.088, 0.0005);
    EXPECT_NEAR(outer(1175.55), 0, 0.0005);
    EXPECT_NEAR(outer(1225.55), 0.176, 0.0005);
    EXPECT_NEAR(outer(1250.55), 0.264, 0.0005);
    EXPECT_NEAR(outer(1290), 0.264, 0.0005);
    EXPECT_NEAR(outer(1100), -0.088, 0.0005);
    EXPECT_NEAR(d.level("finished", 1190, 4.4) - 20, -0.088, 1e-12);
    EXPECT_NEAR(d.level("finished", 1190), 20, 1e-12);
}

TEST(Across, TurnsAreOwnPointsTheLevelLaneToo) {
    std::vector<double> found;
    const Designed d(road(run_on));
    for (const OwnPoint& point : d.line().own_points(Designed::nothing)) {
        if (point.kind == OwnPointKind::Crossfall) found.push_back(point.ch);
    }
    ASSERT_EQ(found.size(), 4u);
    EXPECT_NEAR(found[0], 1150.55, 1e-9);
    EXPECT_NEAR(found[1], 1175.55, 1e-9);
    EXPECT_NEAR(found[2], 1200.55, 1e-9);
    EXPECT_NEAR(found[3], 1250.55, 1e-9);
}

TEST(Across, ATurnBetweenTwoGivenOnesIsWhereBothSidesAreOnePlane) {
    const Designed d(road(R"("profile":[{"ch":0,"level":20},{"ch":100,"level":20}],
 "crossfall":[{"ch":0,"left":-0.02,"right":-0.02},{"ch":80,"left":0.06,"right":-0.02}])"));
    const std::vector<double> turns = d.line().across().turns();
    ASSERT_EQ(turns.size(), 4u);
    EXPECT_NEAR(turns[1], 20, 1e-12);
    EXPECT_NEAR(turns[2], 40, 1e-12);
}

TEST(Across, PlanesAreWhatKeepsItsCrossfall) {
    const std::vector<PlaneStretch> found = planes(run_on);
    ASSERT_EQ(found.size(), 3u);
    EXPECT_TRUE(found[0].to_left && !found[0].to_right);
    EXPECT_NEAR(found[0].to, 1150.55, 1e-9);
    EXPECT_DOUBLE_EQ(found[0].crossfall, 0.02);
    EXPECT_TRUE(found[1].to_right && !found[1].to_left);
    EXPECT_NEAR(found[1].to, 1200.55, 1e-9);
    EXPECT_DOUBLE_EQ(found[1].crossfall, -0.02);
    EXPECT_TRUE(found[2].to_left && found[2].to_right);
    EXPECT_NEAR(found[2].from, 1250.55, 1e-9);
    EXPECT_DOUBLE_EQ(found[2].crossfall, -0.06);
}

TEST(Across, TwistsAreTheRestSideBySide) {
    const Designed d(road(run_on));
    const std::vector<Twist> found = d.line().twists();
    ASSERT_EQ(found.size(), 2u);
    EXPECT_TRUE(found[0].left);
    EXPECT_NEAR(found[0].from, 1150.55, 1e-9);
    EXPECT_NEAR(found[0].to, 1250.55, 1e-9);
    EXPECT_FALSE(found[1].left);
    EXPECT_NEAR(found[1].from, 1200.55, 1e-9);
}

TEST(Across, ATwistOnASideTheRoadDoesNotHaveIsNone) {
    const std::string one_sided = R"("profile":[{"ch":0,"level":20},{"ch":100,"level":20}],"edges":[0,3],
 "crossfall":[{"ch":0,"left":-0.02,"right":-0.02},{"ch":80,"left":0.06,"right":-0.02}])";
    const Designed d(road(one_sided));
    EXPECT_TRUE(d.line().twists().empty());
    ASSERT_EQ(planes(one_sided).size(), 1u);
    EXPECT_DOUBLE_EQ(planes(one_sided)[0].to, 100);
}

TEST(Across, ListedAlikeIsOneCrossfall) {
    const std::string alike = R"("profile":[{"ch":0,"level":20},{"ch":100,"level":19}],
 "crossfall":[{"ch":0,"right":-0.02},{"ch":50,"right":"-2 %"},{"ch":70,"left":0.02,"right":-0.02}])";
    ASSERT_EQ(planes(alike).size(), 1u);
    EXPECT_TRUE(planes(alike)[0].to_left && planes(alike)[0].to_right);
    EXPECT_NEAR(Designed(road(alike)).level("finished", 60, -3), 19.4 + 0.06, 1e-12);
}

TEST(Across, OutOfOrderHasNoDesignOffTheLine) {
    const Designed d(road(R"("profile":[{"ch":0,"level":20},{"ch":100,"level":19}],
 "crossfall":[{"ch":50,"left":-0.02,"right":-0.02},{"ch":50,"left":0.06,"right":-0.02}])"));
    EXPECT_EQ(d.count(Code::CrossfallOrder), 1);
    EXPECT_NEAR(d.level("finished", 20), 19.8, 1e-12);
    EXPECT_TRUE(std::isnan(d.level("finished", 20, 2)));
    EXPECT_TRUE(d.line().planes(Designed::nothing).empty());
}

TEST(Across, SlopesAlongAnEdgeInATwistBend) {
    // A twist over a straight grade is a ruled surface: at a fixed offset it is still straight.
    const Designed d(road(run_on));
    const double a = d.level("finished", 1210, -3);
    const double b = d.level("finished", 1220, -3);
    const double c = d.level("finished", 1230, -3);
    EXPECT_NEAR(b - a, c - b, 1e-12);
    EXPECT_NEAR(b - a, 10 * 0.0008 * 3, 1e-12);
}

// Any crossfall: straight across on each side, and between two neighbours in the mean.
RC_GTEST_PROP(Across, IsStraightAcrossAndBetweenTwoChainages, ()) {
    const auto ratio = [] { return *rc::gen::inRange(-100, 101) / 1000.0; };
    Crossfall crossfall;
    double ch = 0;
    for (int i = 0; i < 4; ++i) {
        ch += *rc::gen::inRange(1, 50);
        crossfall.along.push_back({ch, ratio(), ratio()});
    }
    const Across across(crossfall);
    const std::size_t i = static_cast<std::size_t>(*rc::gen::inRange(1, 4));
    const double a = crossfall.along[i - 1].ch;
    const double b = crossfall.along[i].ch;
    for (const double off : {-3.0, 2.5}) {
        const double middle = across.rise((a + b) / 2, off);
        RC_ASSERT(std::fabs(middle - (across.rise(a, off) + across.rise(b, off)) / 2) < 1e-12);
        RC_ASSERT(std::fabs(across.rise(a + 0.3, 2 * off) - 2 * across.rise(a + 0.3, off)) < 1e-12);
    }
    RC_ASSERT(across.rise(a, 0) == 0);
}

}  // namespace fallwright
