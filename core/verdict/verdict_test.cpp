#include "verdict/verdict.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <string>

#include "design/design.h"
#include "staff/figures.h"
#include "verdict/ponds.h"
#include "where/where.h"

namespace fallwright {
namespace {

constexpr double assumed_sight = 30;

// A drain from 99 falling 1 in 100 to chainage 100, read from one set-up with exact figures, `more` after it.
class Judged {
  public:
    explicit Judged(const std::string& readings, const std::string& more = "") {
        std::string text = R"({"kind":"book","format":"fallwright","version":1,"curvature":false}
{"kind":"what","name":"laid","foot_sd":0}
{"kind":"line","name":"X"}
{"kind":"line","name":"D","use":"drain","profile":[{"ch":0,"level":99},{"ch":100,"level":98}]}
{"kind":"instrument","name":"L","type":"rotating-laser","tilt_sd":0,"setting_tilt_sd":0,"cone_sd":0}
{"kind":"benchmark","point":"X 0.000 laid","level":100}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","line":"X","ch":0,"what":"laid","staff":2,"sd":1e-7}
)";
        book_ = std::move(*read_book(text + more + readings));
        designs_ = design_lines(*book_);
        figures_ = read_figures(*book_);
        where_ = locate(*book_, assumed_sight);
        model_ = build_model(*book_, figures_, where_);
        found_ = find_falls(*book_, *model_);
        judge_ = std::make_unique<LineJudge>(*book_, designs_.lines[1], found_[1], *model_);
    }

    StationVerdict at(std::size_t i) const { return judge_->judge(found_[1].stations.at(i)); }
    std::vector<Pond> ponds() const { return find_ponds(*book_, designs_.lines[1], found_[1], *model_); }
    std::vector<FoundFall> falls() const { return list_falls(*book_, designs_.lines[1], found_[1], *model_); }
    const LineJudge& judge() const { return *judge_; }
    Findings findings() const { return verdict_findings(*book_, designs_, found_); }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
    std::unique_ptr<LineJudge> judge_;
};

// Staff readings from the light at 102 down to levels of laid.
std::string laid(double ch, double level, const std::string& what = "laid") {
    return R"({"kind":"reading","line":"D","ch":)" + std::to_string(ch) + R"(,"what":")" + what +
           R"(","sd":0.002,"staff":)" + std::to_string(102 - level) + "}\n";
}

std::string tolerance(const std::string& fields, const std::string& what = "laid") {
    return R"({"kind":"tolerance","line":"D","what":")" + what + "\"," + fields + "}\n";
}

TEST(LineJudge, DeviationIsMeasuredLessDesignHighPositive) {
    const StationVerdict high = Judged(laid(10, 98.907)).at(0);
    EXPECT_NEAR(high.design, 98.9, 1e-9);
    EXPECT_NEAR(high.deviation, 0.007, 1e-7);
    EXPECT_EQ(high.judged.verdict, Verdict::Untested);
}

TEST(LineJudge, AnOpenSideTakesAnything) {
    const Judged judged(laid(10, 98.5), tolerance(R"("above":0.01)"));
    EXPECT_EQ(judged.at(0).judged.verdict, Verdict::Within);
    EXPECT_TRUE(judged.at(0).judged.plain_within);
}

TEST(LineJudge, TheLimitItselfIsWithinAsMeasured) {
    const Judged judged(laid(10, 98.91), tolerance(R"("below":-0.01,"above":0.01)"));
    EXPECT_TRUE(judged.at(0).judged.plain_within);
    EXPECT_NEAR(judged.at(0).judged.probability, 0.5, 1e-4);
}

TEST(LineJudge, AToleranceOfLaidHoldsAtChambersUnlessTheyHaveTheirOwn) {
    const std::string readings = laid(10, 98.905, "laid in") + laid(10, 98.905, "laid out");
    const Judged judged(readings, tolerance(R"("above":0.02)") + tolerance(R"("above":0.001)", "laid out"));
    EXPECT_EQ(judged.at(0).judged.verdict, Verdict::Within);
    EXPECT_EQ(judged.at(1).judged.verdict, Verdict::Outside);
    ASSERT_EQ(judged.judge().all_within().size(), 2U);
}

TEST(LineJudge, BeyondTheProfileThereIsNothingToJudgeBy) {
    const Judged judged(laid(120, 98), tolerance(R"("above":0.02)"));
    EXPECT_TRUE(std::isnan(judged.at(0).design));
    EXPECT_EQ(judged.at(0).judged.verdict, Verdict::Untested);
    EXPECT_TRUE(judged.judge().all_within().empty());
    ASSERT_EQ(judged.findings().size(), 1U);
    EXPECT_EQ(judged.findings().front().code, Code::ToleranceUnused);
}

TEST(Ponds, AFallingDrainHasNone) {
    EXPECT_TRUE(Judged(laid(0, 99) + laid(50, 98.5) + laid(100, 98)).ponds().empty());
}

TEST(Ponds, ASagStandsAsHighAsItsLowestWayOut) {
    const auto ponds = Judged(laid(0, 99) + laid(20, 98.4) + laid(40, 98.6) + laid(60, 98.5)).ponds();
    ASSERT_EQ(ponds.size(), 1U);
    EXPECT_NEAR(ponds[0].depth, 0.2, 1e-7);
    EXPECT_NEAR(ponds[0].from, 20 - 20 * 0.2 / 0.6, 1e-6);
    EXPECT_NEAR(ponds[0].to, 40, 1e-9);
    EXPECT_NEAR(ponds[0].probability, 1, 1e-9);
}

TEST(Ponds, OneBehindAnotherAreTwo) {
    const auto ponds =
        Judged(laid(0, 99) + laid(10, 98.4) + laid(20, 98.6) + laid(30, 98.2) + laid(40, 98.3)).ponds();
    ASSERT_EQ(ponds.size(), 2U);
    EXPECT_NEAR(ponds[0].depth, 0.2, 1e-7);
    EXPECT_NEAR(ponds[1].depth, 0.1, 1e-7);
}

TEST(Ponds, AHigherSillFurtherOnHoldsBackBoth) {
    const auto ponds =
        Judged(laid(0, 99) + laid(10, 98.4) + laid(20, 98.5) + laid(30, 98.2) + laid(40, 98.7)).ponds();
    ASSERT_EQ(ponds.size(), 1U);
    EXPECT_NEAR(ponds[0].depth, 0.5, 1e-7);
}

TEST(Ponds, ADrainThatRisesAllTheWayIsOne) {
    const auto ponds = Judged(laid(0, 98) + laid(50, 98.5) + laid(100, 99)).ponds();
    ASSERT_EQ(ponds.size(), 1U);
    EXPECT_NEAR(ponds[0].from, 0, 1e-9);
    EXPECT_NEAR(ponds[0].to, 100, 1e-9);
    EXPECT_NEAR(ponds[0].depth, 1, 1e-7);
}

TEST(Falls, NeighboursStandByChainageWhateverTheOrderOfReading) {
    const auto falls = Judged(laid(40, 98.6) + laid(0, 99) + laid(20, 98.9)).falls();
    ASSERT_EQ(falls.size(), 3U);
    EXPECT_NEAR(falls[0].gradient, 0.005, 1e-9);
    EXPECT_NEAR(falls[1].gradient, 0.015, 1e-9);
    EXPECT_EQ(falls[2].span, Span::Line);
    EXPECT_NEAR(falls[2].gradient, 0.01, 1e-9);
    EXPECT_NEAR(falls[2].sd, 0.002 * std::sqrt(2.0) / 40, 1e-10);
}

}  // namespace
}  // namespace fallwright
