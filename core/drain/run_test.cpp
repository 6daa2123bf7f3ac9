#include "drain/run.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "setout/set_out_book.h"

namespace fallwright::drain {

namespace {

constexpr double same = 1e-6;

// Light at 51.500. Two bores, a drop of 0.100 at B; A to B falls 1 in 100, B to C too.
const std::string ties = R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"I","type":"optical-level","collimation_sd":0,"reading_sd":0.001,"sd_per_m":0}
{"kind":"setup","name":"S","instrument":"I"}
{"kind":"reading","point":"BM","sight":"back","staff":1.5}
)";
const std::string drain = R"({"kind":"line","name":"D1","use":"drain","pipes":[
{"from":0,"to":10,"bore":0.15,"wall":0.01,"bedding":0.1},
{"from":10,"to":20,"bore":0.15,"wall":0.01,"bedding":0.1},
{"from":20,"to":40,"bore":0.225,"wall":0.0125,"bedding":0.1}],
"chambers":[{"name":"A","ch":0,"in":48.5,"cover":50.02},{"name":"B","ch":20,"in":48.3,"out":48.2},
{"name":"C","ch":40,"in":48.0}]})";

// The line's entry is written over several lines here.
std::string joined(std::string text) {
    for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n')) text.erase(at, 1);
    return text + "\n";
}

std::string read(const std::string& line, double ch, const std::string& what, double staff) {
    return R"({"kind":"reading","line":")" + line + R"(","ch":)" + std::to_string(ch) + R"(,"what":")" +
           what + R"(","staff":)" + std::to_string(staff) + "}\n";
}

std::string ground() {
    return read("D1", 0, "ground", 1.5) + read("D1", 20, "ground", 1.7) + read("D1", 40, "ground", 1.9);
}

class RunOf {
  public:
    explicit RunOf(const std::string& more)
        : book_(ties + joined(drain) + more), basis_(book_.basis()), runs_(drain_runs(basis_, wish())) {}

    const drain::Run& run() const { return runs_.runs.at(0); }
    const Runs& runs() const { return runs_; }
    std::string said(Code code) const {
        for (const Finding& each : runs_.findings) {
            if (each.code == code) return each.message;
        }
        return "";
    }

  private:
    RunWish wish() const {
        RunWish wish;
        wish.setup = standing_setup(book_.book());
        return wish;
    }

    SetOutBook book_;
    SetoutBasis basis_;
    Runs runs_;
};

}  // namespace

TEST(DrainRun, PipesAsDesignedAndWhatTheStaffMustRead) {
    const RunOf site("");
    ASSERT_EQ(site.run().pipes.size(), 3U);
    const RunPipe& first = site.run().pipes[0];
    EXPECT_NEAR(first.upper.design, 48.5, same);
    EXPECT_NEAR(first.lower.design, 48.4, same);
    EXPECT_NEAR(first.fall, 0.01, same);
    EXPECT_NEAR(first.lower.staff, 51.5 - 48.4, same);
    // Back sight and this reading, each 1 mm, and how the foot stands on the benchmark, 0.3 mm.
    EXPECT_NEAR(first.lower.staff_sd, std::sqrt(2e-6 + 0.0003 * 0.0003), 1e-7);
    EXPECT_EQ(site.run().pipes[1].lower.what, "laid in");
    EXPECT_NEAR(site.run().pipes[1].lower.design, 48.3, same);
    EXPECT_EQ(site.run().pipes[2].upper.what, "laid out");
    EXPECT_NEAR(site.run().pipes[2].upper.staff, 51.5 - 48.2, same);
    EXPECT_TRUE(std::isnan(first.laid_fall));
    EXPECT_TRUE(std::isnan(first.upper.laid));
}

TEST(DrainRun, FallsAsLaidPipeByPipe) {
    const RunOf site(read("D1", 0, "laid out", 3.0) + read("D1", 10, "laid", 3.09) +
                     read("D1", 20, "laid in", 3.2) + read("D1", 20, "laid out", 3.305));
    const RunPipe& first = site.run().pipes[0];
    EXPECT_NEAR(first.laid_fall, 0.009, same);
    // Two readings of one light over 10 m: the light cancels; each 1 mm and a foot of 1 mm.
    EXPECT_NEAR(first.laid_fall_sd, std::sqrt(4e-6) / 10, 1e-8);
    EXPECT_NEAR(first.lower.deviation, 0.01, same);
    EXPECT_NEAR(site.run().pipes[1].laid_fall, 0.011, same);
    EXPECT_LT(site.run().pipes[1].backfall, 1e-4);
    EXPECT_TRUE(std::isnan(site.run().pipes[2].laid_fall));
    EXPECT_NEAR(site.run().pipes[2].upper.deviation, -0.005, same);
    EXPECT_TRUE(site.run().flats.empty());
}

TEST(DrainRun, WhatMayFallBackIsFlat) {
    const RunOf site(read("D1", 0, "laid out", 3.0) + read("D1", 10, "laid", 3.002) +
                     read("D1", 20, "laid in", 2.99));
    ASSERT_EQ(site.run().flats.size(), 2U);
    EXPECT_NEAR(site.run().flats[0].fall, 0.0002, same);
    // 2 mm down with an sd of 2 mm: 16 % that it truly falls back (normal tables).
    EXPECT_NEAR(site.run().flats[0].backfall, 0.1587, 5e-5);
    EXPECT_NEAR(site.run().flats[1].fall, -0.0012, same);
    EXPECT_GT(site.run().flats[1].backfall, 0.99);
}

// PL-09: level soffits ask for a difference of the bores, 75 mm here; the drop of 100 mm is 25 mm more.
TEST(DrainRun, ChambersWithDropsAndBores) {
    const RunOf site(read("D1", 20, "laid in", 3.2) + read("D1", 20, "laid out", 3.305));
    const RunChamber& b = site.run().chambers.at(1);
    EXPECT_NEAR(b.drop, 0.1, same);
    EXPECT_NEAR(b.bore_in, 0.15, same);
    EXPECT_NEAR(b.bore_out, 0.225, same);
    EXPECT_NEAR(b.soffit_drop, 0.025, same);
    EXPECT_NEAR(b.laid_drop, 0.105, same);
    EXPECT_NEAR(b.laid_drop_sd, std::sqrt(4e-6), 1e-8);
    EXPECT_NEAR(site.run().chambers.at(0).depth, 50.02 - 48.5, same);
    EXPECT_TRUE(site.said(Code::DrainBoreNarrows).empty());
}

TEST(DrainRun, CoverAndDepthAlongTheLine) {
    const RunOf site(ground() + read("D1", 10, "laid", 3.09));
    ASSERT_EQ(site.run().stations.size(), 5U);
    const RunStation& top = site.run().stations[0];
    EXPECT_NEAR(top.cover, 50.02 - 48.66, same);  // by the lid
    EXPECT_NEAR(top.cover_sd, 0, same);           // both as given
    EXPECT_NEAR(top.depth, 50 - 48.39, same);
    const RunStation& middle = site.run().stations[1];
    EXPECT_NEAR(middle.ground, 49.9, same);
    EXPECT_NEAR(middle.cover, 49.9 - 48.56, same);
    EXPECT_NEAR(middle.laid_cover, 49.9 - 48.57, same);
    EXPECT_EQ(site.run().stations[2].what, "laid in");
    EXPECT_NEAR(site.run().stations[2].cover, 49.8 - 48.46, same);
    EXPECT_NEAR(site.run().stations[2].depth, 49.8 - 48.19, same);
    EXPECT_EQ(site.run().stations[3].what, "laid out");
    EXPECT_NEAR(site.run().stations[3].soffit, 48.425, same);
    EXPECT_NEAR(site.run().stations[3].crown, 48.4375, same);
    // Back sight, reading, foot on the benchmark and 10 mm of foot on ground.
    const double ground_sd = std::sqrt(2e-6 + 0.0003 * 0.0003 + 1e-4);
    EXPECT_NEAR(site.run().stations[4].cover_sd, ground_sd, 1e-7);
}

// PL-11: 1.2 m under a highway, of which the end has 1.3625 and the pipe as laid at 20 a finger's breadth
// less.
TEST(DrainRun, ShortCoverSaysRuleSourceAndHowSure) {
    const RunOf enough(ground() + R"({"kind":"rule","name":"cover","preset":"cover-highway"})" + "\n");
    EXPECT_EQ(enough.run().cover_rule.least, 1.2);
    EXPECT_EQ(enough.run().stations[4].least.verdict, Verdict::Within);
    EXPECT_TRUE(enough.said(Code::DrainShortCover).empty());
    const RunOf less(ground() + R"({"kind":"rule","name":"cover D1","values":{"least":1.35}})" + "\n" +
                     R"({"kind":"rule","name":"cover","preset":"cover-garden"})" + "\n");
    EXPECT_EQ(less.run().cover_rule.name, "cover D1");
    EXPECT_EQ(less.run().stations[2].least.verdict, Verdict::Undecided);  // 10 mm short with an sd of 10 mm
    // Between two readings of ground, each 10.05 mm of its own, and one light of 1.04 mm: 7.18 mm, so 10 mm
    // short is 1.39 sd and 92 % (normal tables).
    const std::string said = less.said(Code::DrainShortCover);
    EXPECT_NE(said.find("1.340 m \u00b1 0.0"), std::string::npos) << said;
    EXPECT_NE(said.find("wanted 1.350 m; 92 % sure"), std::string::npos) << said;
}

TEST(DrainRun, AnUnknownCoverPresetIsSaid) {
    const RunOf site(ground() + R"({"kind":"rule","name":"cover","preset":"cover-moon"})" + "\n");
    EXPECT_FALSE(site.said(Code::UnknownPreset).empty());
    EXPECT_EQ(site.run().stations[4].least.verdict, Verdict::Untested);
}

// An outfall dipped with a tape from its cover: 5 cm lower than the design.
TEST(DrainRun, ADipThatDisagreesIsSaidWithBothFigures) {
    const RunOf site(R"({"kind":"reading","point":"cover C","staff":1.9}
{"kind":"step","from":"cover C","to":"D1 40.000 invert","rise":-1.65,"sd":0.003}
)");
    ASSERT_EQ(site.run().dips.size(), 1U);
    const Dip& dip = site.run().dips[0];
    EXPECT_NEAR(dip.level, 47.95, same);
    EXPECT_NEAR(dip.design, 48.0, same);
    EXPECT_FALSE(dip.agrees);
    const std::string said = site.said(Code::DrainDipDiffers);
    EXPECT_NE(said.find("48.000 m by design"), std::string::npos) << said;
    EXPECT_NE(said.find("47.950 m \u00b1 0.003 m, 0.050 m lower"), std::string::npos) << said;
}

TEST(DrainRun, ADipWithinItsUncertaintyAgrees) {
    const RunOf site(R"({"kind":"reading","point":"cover C","staff":1.9}
{"kind":"step","from":"cover C","to":"D1 40.000 invert","rise":-1.605,"sd":0.003}
)");
    EXPECT_TRUE(site.run().dips.at(0).agrees);
    EXPECT_TRUE(site.said(Code::DrainDipDiffers).empty());
}

// D2 joins D1 at B by the soffit, which was found 20 mm lower than designed.
TEST(DrainRun, AJoinLeansOnWhatWasFoundThere) {
    const std::string branch =
        R"({"kind":"line","name":"D2","use":"drain","profile":[{"ch":0,"level":49},)"
        R"({"ch":10,"gradient":-0.05}],"pipes":[{"from":0,"to":10,"bore":0.1,"wall":0.005}],)"
        R"("joins":{"line":"D1","ch":20,"by":"soffit"}})";
    const RunOf site(branch + "\n" + read("D1", 20, "laid out", 3.32));
    const auto& run = site.runs().runs.at(1);
    ASSERT_EQ(run.joins.size(), 1U);
    EXPECT_NEAR(run.joins[0].ch, 10, same);
    EXPECT_NEAR(run.joins[0].other_soffit, 48.425, same);
    EXPECT_NEAR(run.joins[0].invert, 48.325, same);
    EXPECT_NEAR(run.joins[0].drop, 0.125, same);
    ASSERT_EQ(run.dips.size(), 1U);
    EXPECT_NEAR(run.dips[0].difference, -0.02, same);
    EXPECT_FALSE(run.dips[0].agrees);
}

TEST(DrainRun, ASmallerBoreDownstreamIsSaid) {
    const RunOf site(
        R"({"kind":"line","name":"D2","use":"drain","profile":[{"ch":0,"level":49},)"
        R"({"ch":20,"gradient":-0.02}],"pipes":[{"from":0,"to":10,"bore":0.15},{"from":10,"to":20,"bore":0.1}],)"
        R"("chambers":[{"name":"M","ch":10}]})"
        "\n");
    const std::string said = site.said(Code::DrainBoreNarrows);
    EXPECT_NE(said.find("a bore of 100 mm follows one of 150 mm"), std::string::npos) << said;
}

// PL-05, College survey exam: at Q and R the pipe stands out of the ground. A pipe of no thickness, so that
// the crown is the invert.
TEST(DrainRun, APipeAboveTheGroundIsSaid) {
    const RunOf site(R"({"kind":"line","name":"D2","use":"drain","profile":[{"ch":0,"level":48.2},)"
                     R"({"ch":20,"level":48.8}],"pipes":[{"from":0,"to":20,"bore":0.1,"wall":0}]})"
                     "\n" +
                     read("D2", 0, "ground", 3) + read("D2", 20, "ground", 2.8));
    EXPECT_NEAR(site.runs().runs.at(1).stations[1].cover, 48.7 - 48.9, same);
    EXPECT_FALSE(site.said(Code::SetoutNoCover).empty());
}

// Water runs from 40 to 0: upper and lower change places, in and out at the chamber too.
TEST(DrainRun, AgainstTheChainage) {
    const RunOf site(
        R"({"kind":"line","name":"D2","use":"drain","flow":"against","pipes":[)"
        R"({"from":0,"to":20,"bore":0.15,"wall":0},{"from":20,"to":40,"bore":0.15,"wall":0}],"chambers":[)"
        R"({"name":"A","ch":0,"in":48},{"name":"B","ch":20,"in":48.3,"out":48.2},{"name":"C","ch":40,"in":48.5}]})"
        "\n");
    const auto& run = site.runs().runs.at(1);
    EXPECT_FALSE(run.with_chainage);
    EXPECT_NEAR(run.pipes[0].upper.design, 48.2, same);
    EXPECT_NEAR(run.pipes[0].lower.design, 48.0, same);
    EXPECT_EQ(run.pipes[0].upper.what, "laid out");
    EXPECT_NEAR(run.pipes[1].lower.design, 48.3, same);
    EXPECT_NEAR(run.chambers[1].drop, 0.1, same);
}

// GR-03 Maguire's rule (Chudley and Greeno): 150 mm wants 1 in 60, 225 mm 1 in 90; both fall 1 in 100.
TEST(DrainRun, FlatterThanTheRuleHeldToIsSaidWithItsSource) {
    const RunOf site(R"({"kind":"rule","name":"hydraulics","preset":"maguire"})"
                     "\n" +
                     read("D1", 0, "laid out", 3.0) + read("D1", 10, "laid", 3.09));
    ASSERT_EQ(site.run().kinds.size(), 2U);
    EXPECT_NEAR(site.run().kinds[0].held.below, 1.0 / 60, 1e-9);
    EXPECT_NEAR(site.run().kinds[1].held.below, 1.0 / 90, 1e-9);
    EXPECT_EQ(site.run().pipes[1].kind, 0U);
    EXPECT_EQ(site.run().pipes[0].met.verdict, Verdict::Outside);  // 1 in 111 with an sd of 0.0002
    EXPECT_EQ(site.run().pipes[1].met.verdict, Verdict::Untested);
    const std::string said = site.said(Code::DrainFlatter);
    EXPECT_NE(said.find("Maguire"), std::string::npos) << said;
    EXPECT_NE(said.find("wants 1 in 60"), std::string::npos) << said;
}

TEST(DrainRun, ARuleFromMemoryIsAHint) {
    const RunOf site(R"({"kind":"rule","name":"hydraulics","preset":"one-in-bore"})"
                     "\n" +
                     read("D1", 0, "laid out", 3.0) + read("D1", 10, "laid", 3.09));
    EXPECT_EQ(site.run().pipes[0].met.verdict, Verdict::Untested);
    EXPECT_TRUE(site.said(Code::DrainFlatter).empty());
}

// The same as one pipe asked about alone; half of the full flow runs at half of the depth (any law: radius
// and area are halves of a kind).
TEST(DrainRun, TheJobsPeakRunsAsItDoesInOnePipe) {
    const RunOf alone("");
    const double half = alone.run().kinds[0].full.flow / 2;
    EXPECT_FALSE(alone.run().kinds[0].part);
    const RunOf site(R"({"kind":"rule","name":"hydraulics","values":{"flow":)" + std::to_string(half) +
                     "}}\n");
    ASSERT_TRUE(site.run().kinds[0].part);
    EXPECT_NEAR(site.run().kinds[0].part->depth / 0.15, 0.5, 1e-3);
    EXPECT_NEAR(site.run().kinds[0].part->velocity, alone.run().kinds[0].full.velocity, 1e-3);
    EXPECT_TRUE(site.said(Code::DrainOverfull).empty());
    const RunOf more(R"({"kind":"rule","name":"hydraulics","values":{"flow":0.03}})"
                     "\n");
    EXPECT_FALSE(more.run().kinds[0].part);
    EXPECT_NE(more.said(Code::DrainOverfull).find("30 l/s is more than 150 mm at 1 in 100"),
              std::string::npos)
        << more.said(Code::DrainOverfull);
}

}  // namespace fallwright::drain
