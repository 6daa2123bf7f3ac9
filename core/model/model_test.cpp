#include "model/model.h"

#include <gtest/gtest.h>

#include "model/solved.h"

namespace fallwright {

namespace {

// Readings of 1.2 mm, tilt 0.03 and cone 0.02 mm/m, points found without error.
const std::string start = R"({"kind":"what","name":"mark","foot_sd":0}
{"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.0012,"tilt_sd":3e-5,"setting_tilt_sd":0,"cone_sd":2e-5}
{"kind":"setup","name":"S","instrument":"L","plane":{"bearing":0}}
)";

std::string reading(const std::string& point, const std::string& more) {
    return R"({"kind":"reading","point":")" + point + R"(","what":"mark","staff":1)" + more + "}\n";
}

std::string at(double along, double across) {
    return R"(,"along":)" + std::to_string(along) + R"(,"across":)" + std::to_string(across);
}

constexpr double degree = 0.017453292519943295;

}  // namespace

// measurement-model section 2.4 (a), measurement.json prop-dh (derived for this project): seen as a
// covariance of two points, relative to a benchmark elsewhere.
TEST(Model, ADifferenceOfTwoPointsIsThatOfTheClosedFormWhateverTheBenchmark) {
    const SolvedBook solved(start + reading("BM", at(-33, 12)) +
                            reading("A", at(25 * std::cos(40 * degree), 25 * std::sin(40 * degree))) +
                            reading("B", at(70 * std::cos(155 * degree), 70 * std::sin(155 * degree))));
    EXPECT_NEAR(solved.sd_between("A", "B"), 0.00316128890241, 1e-8);
    // Variance of a sum and covariance of two sums agree.
    const std::array<PointTerm, 1> a = {{{solved.point("A"), 1}}}, b = {{{solved.point("B"), 1}}};
    const Model& model = solved.model();
    const double difference = model.variance_of(a) + model.variance_of(b) - 2 * model.covariance_of(a, b);
    EXPECT_NEAR(std::sqrt(difference), solved.sd_between("A", "B"), 1e-12);
    EXPECT_NEAR(model.variance_of(a), solved.level("A").sd * solved.level("A").sd, 1e-18);
}

// Section 2.4 (a), prop-dh-tilt-end and -mid: balanced sights do not cancel tilt.
TEST(Model, TiltCostsTheDistanceBetweenThePoints) {
    const SolvedBook middle(start + reading("BM", at(-40, 5)) + reading("A", at(40, 5)));
    EXPECT_NEAR(middle.level("A").sd, 0.00293938769134, 1e-8);
    const SolvedBook end(start + reading("BM", at(0, 5)) + reading("A", at(80, 5)));
    EXPECT_NEAR(end.level("A").sd, 0.00330142024122, 1e-8);
}

TEST(Model, AnAssumedDatumIsTheFirstPointReadInTime) {
    const SolvedBook solved(R"({"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S","instrument":"L","at":"2026-05-04T08:00:00Z"}
{"kind":"reading","point":"late","staff":1,"at":"2026-05-04T10:00:00Z"}
{"kind":"reading","point":"early","staff":2,"at":"2026-05-04T09:00:00Z"}
)");
    EXPECT_TRUE(solved.model().assumed_datum);
    EXPECT_EQ(solved.level("early").level, 100);
    EXPECT_EQ(solved.level("early").sd, 0);
    EXPECT_NEAR(solved.level("late").level, 101, 1e-12);
    EXPECT_EQ(solved.said(Code::AssumedDatum).about.front(), "early");
}

TEST(Model, WhatHangsOnNoBenchmarkIsUndeterminedAndNamed) {
    const SolvedBook solved(start + reading("BM", at(10, 0)) + R"({"kind":"setup","name":"T","instrument":"L"}
)" + reading("X", "") + reading("Y", "") +
                            R"({"kind":"step","from":"Y","to":"Z","rise":1}
)");
    for (const char* name : {"X", "Y", "Z"}) {
        EXPECT_TRUE(std::isnan(solved.level(name).level) && std::isnan(solved.level(name).sd)) << name;
        EXPECT_FALSE(solved.level(name).checked);
    }
    EXPECT_EQ(solved.level("BM").level, 50);
    EXPECT_TRUE(std::isnan(solved.model().planes[1].level));
    EXPECT_EQ(solved.said(Code::Undetermined).about, (std::vector<std::string>{"X", "Y", "Z", "T"}));
    EXPECT_TRUE(std::isnan(solved.sd_between("X", "BM")));
    // Among themselves they are as sure as ever.
    EXPECT_NEAR(solved.sd_between("Y", "Z"), 0.002, 1e-9);
}

TEST(Model, AResidualIsBookedMinusComputedInTheSenseOfTheStaff) {
    // Two readings of one point 4 mm apart: it lies between them.
    const SolvedBook solved(
        start + reading("BM", at(10, 0)) + reading("P", at(10, 0)) +
        R"({"kind":"reading","point":"P","what":"mark","staff":1.004,"along":10,"across":0}
)");
    EXPECT_NEAR(solved.level("P").level, 49.998, 1e-9);
    EXPECT_NEAR(solved.model().fit(1).residual, -0.002, 1e-9);
    EXPECT_NEAR(solved.model().fit(2).residual, 0.002, 1e-9);
    EXPECT_NEAR(solved.model().fit(2).redundancy, 0.5, 1e-9);
    EXPECT_NEAR(solved.model().fit(2).detectable, 4.13 * 0.0012 / std::sqrt(0.5), 1e-9);
    EXPECT_TRUE(std::isnan(solved.model().fit(0).w));
    EXPECT_EQ(solved.model().summary.dof, 1);
    EXPECT_NEAR(solved.model().summary.chi2, 2 * (0.002 / 0.0012) * (0.002 / 0.0012), 1e-9);
}

// Contract section 2: shown is the gradient before tilt, an observation; c is the head's.
TEST(Model, AMatchedPlaneOnASharedHeadPassesThroughWhatWasRead) {
    const std::string matched =
        R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser","grade_sd":0,"tilt_sd":0,"setting_tilt_sd":0}
{"kind":"setup","name":"S","instrument":"L","place":{"e":0,"n":0},"plane":{"bearing":0}}
{"kind":"place","point":"BM","e":0,"n":10}
{"kind":"place","point":"A","e":0,"n":50}
{"kind":"reading","point":"BM","staff":1.5}
{"kind":"setup","name":"T","instrument":"L","head":"S","head_sd":0,"plane":{"main":null})";
    const std::string far = R"({"kind":"reading","point":"A","staff":1.5}
)";
    // Nothing shown: one reading of an unknown point does not tell the gradient.
    const SolvedBook loose(matched + "}\n" + far);
    EXPECT_TRUE(std::isnan(loose.model().planes[1].gradient[0]));
    EXPECT_NE(loose.said(Code::Undetermined).message.find("gradient"), std::string::npos);
    EXPECT_FALSE(loose.level("A").checked);
    // Shown without any uncertainty: the plane is exactly that.
    const SolvedBook shown(matched + R"(,"shown":{"main":-0.0125}})" + "\n" + far);
    EXPECT_NEAR(shown.model().planes[1].gradient[0], -0.0125, 1e-12);
    EXPECT_EQ(shown.model().planes[1].gradient_sd[0], 0);
    EXPECT_NEAR(shown.model().planes[1].level, 51.5, 1e-9);
    EXPECT_NEAR(shown.level("A").level, 51.5 - 0.0125 * 50 - 1.5, 1e-9);
    EXPECT_EQ(shown.said(Code::MatchNotProved).about.front(), "T");
}

TEST(Model, ARepeatInOneSetUpSharesItsFoot) {
    // Both readings of the ground point stand on one foot: 10 mm stays, the readings' own part halves.
    const std::string exact = R"({"kind":"what","name":"ground","foot_sd":0.01}
)" + start + reading("BM", at(0, 0));
    const std::string ground =
        R"({"kind":"reading","point":"G","what":"ground","staff":1,"along":0,"across":0}
)";
    const double once = 0.0012 * 0.0012;
    EXPECT_NEAR(SolvedBook(exact + ground).level("G").sd, std::sqrt(1e-4 + 2 * once), 1e-9);
    EXPECT_NEAR(SolvedBook(exact + ground + ground).level("G").sd, std::sqrt(1e-4 + 1.5 * once), 1e-9);
}

}  // namespace fallwright
