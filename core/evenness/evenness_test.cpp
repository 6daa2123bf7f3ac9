#include "evenness/evenness.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "evenness/even_book.h"

namespace fallwright {

namespace {

const char* const road = R"("use":"road","profile":[{"ch":0,"level":100},{"ch":400,"level":96}])";

// Readings every `dx` over a length, levels of a road falling 1 in 100 and what lies on it.
std::string every(double dx, double length, const std::function<double(double)>& bump) {
    std::string text;
    for (int i = 0; i * dx <= length + 1e-9; ++i)
        text += EvenBook::at(i * dx, 100 - 0.01 * i * dx + bump(i * dx));
    return text;
}

double flat(double) {
    return 0;
}

// A dip of one reading.
std::function<double(double)> dip_at(double ch, double depth) {
    return [=](double x) { return std::fabs(x - ch) < 0.01 ? -depth : 0; };
}

std::string tolerance(const std::string& fields, const std::string& what = "finished") {
    return R"({"kind":"tolerance","line":"R1","what":")" + what + "\"," + fields + "}\n";
}

}  // namespace

TEST(Evenness, IsTakenOfRoadsKerbsAndSlabsOnly) {
    const std::string readings = every(1, 10, flat);
    EXPECT_EQ(EvenBook(road, "", readings).rows().size(), 1U);
    EXPECT_TRUE(EvenBook(R"("use":"drain")", "", readings).rows().empty());
    EXPECT_TRUE(EvenBook(R"("use":"other")", "", readings).rows().empty());
    EXPECT_TRUE(EvenBook(road, "", EvenBook::at(0, 100) + EvenBook::at(1, 100)).rows().empty());
    const std::string ground = EvenBook::at(0, 100, 0, "ground") + EvenBook::at(1, 100, 0, "ground") +
                               EvenBook::at(2, 100, 0, "ground");
    EXPECT_TRUE(EvenBook(road, "", ground).rows().empty());
}

TEST(Evenness, OffTheStraightAndOffTheDesign) {
    const EvenRow row = EvenBook(road, "", every(1, 10, [](double x) { return 0.010 + 0.002 * x; })).row();
    EXPECT_NEAR(row.off_straight.rms, 0, 1e-6);
    EXPECT_NEAR(row.off_design.mean, 0.020, 1e-6);
    EXPECT_NEAR(row.off_design.worst, 0.030, 1e-6);
    EXPECT_NEAR(row.off_design.worst_at, 10, 1e-9);
    EXPECT_EQ(row.stations, 11U);
    EXPECT_NEAR(row.spacing, 1, 1e-9);
    EXPECT_TRUE(std::isnan(EvenBook(R"("use":"road")", "", every(1, 10, flat)).row().off_design.rms));
}

// One point off by d in the middle of 2k + 1: the fit takes d / n of it. sd of its residual: own noise, less
// the share of the fit.
TEST(Evenness, TheWorstHasTheSdOfItsResidual) {
    const EvenRow row = EvenBook(road, "", every(1, 10, dip_at(5, 0.011)), 0.001).row();
    EXPECT_NEAR(row.off_straight.worst, -0.010, 1e-6);
    EXPECT_NEAR(row.off_straight.worst_sd, 0.001 * std::sqrt(1 - 1.0 / 11), 1e-8);
}

TEST(Evenness, ChordsAreEachReadingAgainstItsNeighbours) {
    const EvenRow row = EvenBook(road, "", every(2, 10, dip_at(4, 0.006)), 0.001).row();
    ASSERT_EQ(row.chords.size(), 4U);
    EXPECT_NEAR(row.chords[1].mid, -0.006, 1e-6);
    EXPECT_NEAR(row.chords[0].mid, 0.003, 1e-6);
    EXPECT_NEAR(row.chords[1].base, 4, 1e-9);
    EXPECT_NEAR(row.chords[1].sd, 0.001 * std::sqrt(1.5), 1e-8);
    EXPECT_NEAR(row.chords[1].design, 0, 1e-9);
}

TEST(Evenness, ACurveOfTheDesignIsShownBesideTheGap) {
    const std::string curved =
        R"("use":"road","profile":[{"ch":0,"level":101},{"ch":50,"level":100,"curve":100},{"ch":100,"level":101}])";
    std::string readings;
    for (int i = 0; i <= 40; ++i) {
        const double x = 30 + i;
        readings += EvenBook::at(x, 101 - 0.02 * x + 0.0002 * x * x);
    }
    const EvenRow row =
        EvenBook(curved, tolerance(R"("gap":0.003,"gaps":[[1,0.001],[15,0.001]])"), readings).row();
    // Radius 2500 m: 3 m of it lie 3^2 / 8 R deep at most; readings a metre apart see 2 / 2 R.
    EXPECT_NEAR(row.straightedge.worst.gap, 0.0004, 1e-6);
    EXPECT_NEAR(row.straightedge.worst.design, 0.0004, 1e-6);
    EXPECT_EQ(row.straightedge.worst.judged.verdict, Verdict::Within);
    EXPECT_NEAR(row.spots.worst.gap, 0, 1e-6);
}

TEST(Evenness, AStraightedgeNeedsThreeReadingsUnderIt) {
    const EvenRow far = EvenBook(road, "", every(2, 20, flat)).row();
    EXPECT_FALSE(far.straightedge.any);
    EXPECT_NE(far.straightedge.refused.find("three must lie under it"), std::string::npos);
    EXPECT_EQ(far.straightedge.over, 3);
    EXPECT_TRUE(EvenBook(road, "", every(1.5, 20, flat)).row().straightedge.refused.empty());
    EXPECT_DOUBLE_EQ(EvenBook(road, "", every(10, 100, flat), 1e-6, "ft").row().straightedge.over, 3.048);
}

TEST(Evenness, GapsAreJudgedByWhatTheirReadingsCarry) {
    const auto judged = [](double depth, double noise) {
        return EvenBook(road, tolerance(R"("gap":0.003)"), every(1, 10, dip_at(5, depth)), noise)
            .row()
            .straightedge;
    };
    EXPECT_EQ(judged(0.0020, 1e-5).worst.judged.verdict, Verdict::Within);
    EXPECT_TRUE(judged(0.0020, 1e-5).places.empty());
    EXPECT_EQ(judged(0.0040, 1e-5).worst.judged.verdict, Verdict::Outside);
    const GapCheck close = judged(0.0032, 0.0005);
    EXPECT_EQ(close.worst.judged.verdict, Verdict::Undecided);
    EXPECT_FALSE(close.worst.judged.plain_within);
    ASSERT_EQ(close.places.size(), 1U);
    // The dip against readings 1 m before and 2 m after it, or the reverse, or 1 m either side.
    EXPECT_NEAR(close.worst.gap, 0.0032, 1e-6);
    EXPECT_GT(close.worst.sd, 0.0005);
    EXPECT_NEAR(close.worst.judged.probability,
                probability_within(close.worst.gap, close.worst.sd, {Limits().below, 0.003}), 1e-12);
}

TEST(Evenness, LimitsFromMemoryJudgeNothing) {
    const EvenRow row =
        EvenBook(road, tolerance(R"("preset":"rolling-a-surface")"), every(1, 80, dip_at(5, 0.009)), 1e-5)
            .row();
    ASSERT_EQ(row.irregularities.size(), 2U);
    EXPECT_EQ(row.irregularities[0].count, 1);
    EXPECT_EQ(row.irregularities[0].verdict, Verdict::Untested);
}

// TO-02's counts as limits of the book: the row decides which length holds.
TEST(Evenness, IrregularitiesAreCountedInTheWorstStretch) {
    const std::string limits = tolerance(
        R"("irregularities":[{"size":0.004,"length":300,"most":20},{"size":0.004,"length":75,"most":9},
{"size":0.007,"length":300,"most":2},{"size":0.007,"length":75,"most":1}])");
    std::string flat_limits = limits;
    flat_limits.erase(flat_limits.find('\n'), 1);
    // A dip of 5 mm every 5 m up to 50, one of 8 mm at 60.
    const auto dips = [](double x) {
        const double part = x / 5 - std::floor(x / 5 + 1e-9);
        if (std::fabs(x - 60) < 0.01) return -0.008;
        return x > 0 && x < 51 && std::fabs(part) < 0.01 ? -0.005 : 0.0;
    };
    const EvenRow shorter = EvenBook(road, flat_limits, every(1, 80, dips), 1e-5).row();
    ASSERT_EQ(shorter.irregularities.size(), 2U);
    EXPECT_NEAR(shorter.irregularities[0].length, 75, 1e-9);
    EXPECT_EQ(shorter.irregularities[0].count, 11);
    EXPECT_EQ(shorter.irregularities[0].surely, 11);
    EXPECT_EQ(shorter.irregularities[0].verdict, Verdict::Outside);
    EXPECT_EQ(shorter.irregularities[1].count, 1);
    EXPECT_EQ(shorter.irregularities[1].verdict, Verdict::Within);
    const EvenRow longer = EvenBook(road, flat_limits, every(1, 310, dips), 1e-5).row();
    EXPECT_NEAR(longer.irregularities[0].length, 300, 1e-9);
    EXPECT_EQ(longer.irregularities[0].verdict, Verdict::Within);
    // Shorter than the shortest length: an excess is one, all else cannot be told. A dip at the very end is
    // none.
    const EvenRow short_one = EvenBook(road, flat_limits, every(1, 40, dips), 1e-5).row();
    EXPECT_EQ(short_one.irregularities[0].count, 7);
    EXPECT_EQ(short_one.irregularities[0].verdict, Verdict::Untested);
}

TEST(Evenness, CountsThatTheNoiseLeavesOpenAreUndecided) {
    const std::string limit = tolerance(R"("irregularities":[{"size":0.004,"length":10,"most":0}])");
    const EvenRow row = EvenBook(road, limit, every(1, 20, dip_at(5, 0.0045)), 0.0005).row();
    EXPECT_EQ(row.irregularities[0].count, 1);
    EXPECT_EQ(row.irregularities[0].surely, 0);
    EXPECT_EQ(row.irregularities[0].verdict, Verdict::Undecided);
}

// TO-06 by its grid rule with IR-11's three points: 2.5 mm of 6 mm allowed by row 3 at a base of 2 m.
TEST(Evenness, SpotsByTheirDistance) {
    const std::string slab = R"("use":"slab")";
    const std::string readings = EvenBook::at(0, 100) + EvenBook::at(1, 100.003) + EvenBook::at(2, 100.001);
    const EvenRow row = EvenBook(slab, tolerance(R"("preset":"din-18202-row-3")"), readings).row();
    ASSERT_TRUE(row.spots.any);
    EXPECT_NEAR(row.spots.worst.gap, -0.0025, 1e-6);
    EXPECT_NEAR(row.spots.worst.limit, 0.006, 1e-12);
    EXPECT_EQ(row.spots.worst.judged.verdict, Verdict::Within);
    const std::string high = EvenBook::at(0, 100) + EvenBook::at(1, 100.009) + EvenBook::at(2, 100.001);
    EXPECT_EQ(
        EvenBook(slab, tolerance(R"("preset":"din-18202-row-3")"), high).row().spots.worst.judged.verdict,
        Verdict::Outside);
}

TEST(Evenness, AcrossACamberEachSideIsARow) {
    const std::string camber =
        R"("use":"road","profile":[{"ch":0,"level":100},{"ch":10,"level":100}],"crossfall":)";
    std::string readings;
    for (const double off : {-2.0, -1.0, 0.0, 1.0, 2.0})
        readings += EvenBook::at(5, 100 - 0.025 * std::fabs(off), off);
    const std::vector<EvenRow> rows = EvenBook(camber + "[-0.025,-0.025]", "", readings).rows();
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_FALSE(rows[0].along);
    EXPECT_NEAR(rows[0].to, 0, 1e-9);
    EXPECT_NEAR(rows[1].from, 0, 1e-9);
    EXPECT_NEAR(rows[0].straightedge.worst.gap, 0, 1e-6);
    EXPECT_EQ(EvenBook(camber + "0.0", "", readings).rows().size(), 1U);
}

TEST(Sections, AreReadFromLeftToRightWithTheirCrossfall) {
    const std::string fields =
        R"("use":"road","profile":[{"ch":0,"level":100},{"ch":10,"level":100}],"crossfall":[{"ch":0,"right":-0.02},{"ch":10,"right":-0.04}])";
    const std::string readings = EvenBook::at(5, 99.9, 3) + EvenBook::at(5, 100.08, -3) +
                                 EvenBook::at(5, 100.001) + EvenBook::at(7, 100);
    const std::vector<Section> found = EvenBook(fields, "", readings, 0.001).sections();
    ASSERT_EQ(found.size(), 1U);
    ASSERT_EQ(found[0].points.size(), 3U);
    EXPECT_NEAR(found[0].points[0].verdict.design, 100.09, 1e-9);
    EXPECT_NEAR(found[0].points[0].verdict.deviation, -0.010, 1e-6);
    EXPECT_NEAR(found[0].points[2].verdict.deviation, -0.010, 1e-6);
    ASSERT_EQ(found[0].slopes.size(), 2U);
    EXPECT_NEAR(found[0].slopes[0].gradient, -0.079 / 3, 1e-6);
    EXPECT_NEAR(found[0].slopes[0].design, -0.03, 1e-9);
    EXPECT_NEAR(found[0].slopes[0].sd, 0.001 * std::sqrt(2.0) / 3, 1e-8);
}

TEST(Evenness, WhatMakesARowUneven) {
    EXPECT_TRUE(uneven(EvenBook(road, tolerance(R"("gap":0.003)"), every(1, 10, dip_at(5, 0.005))).basis()));
    EXPECT_FALSE(uneven(EvenBook(road, tolerance(R"("gap":0.006)"), every(1, 10, dip_at(5, 0.005))).basis()));
    EXPECT_FALSE(uneven(EvenBook(road, "", every(1, 10, dip_at(5, 0.005))).basis()));
}

}  // namespace fallwright
