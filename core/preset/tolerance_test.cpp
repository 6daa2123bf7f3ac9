// Tolerance presets against the figures of the reference: TO-01 to TO-05, TO-08 to TO-10 (sources in
// docs/methods/presets.md).
#include "preset/tolerance.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>

namespace fallwright::preset {

namespace {

const TolerancePreset& row(std::string_view name) {
    const TolerancePreset* found = find_tolerance(name);
    EXPECT_NE(found, nullptr) << name;
    return *found;
}

void expect_level(std::string_view name, double below, double above) {
    EXPECT_DOUBLE_EQ(row(name).below_mm, below) << name;
    EXPECT_DOUBLE_EQ(row(name).above_mm, above) << name;
}

void expect_counts(std::string_view name, const std::array<int, 4>& most) {
    const auto counts = row(name).irregularities;
    ASSERT_EQ(counts.size(), 4U) << name;
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(counts[i].most, most.at(i)) << name;
        EXPECT_EQ(counts[i].size_mm, i < 2 ? 4 : 7);
        EXPECT_EQ(counts[i].length_m, i % 2 == 0 ? 300 : 75);
    }
}

}  // namespace

TEST(TolerancePreset, LayersOfAPavementAsTO01) {
    expect_level("pavement-surface", -6, 6);
    expect_level("pavement-binder", -6, 6);
    expect_level("pavement-base", -15, 15);
    expect_level("pavement-sub-base", -30, 10);
    expect_level("pavement-capping", -30, 20);
    expect_level("pavement-formation", -30, 20);
    EXPECT_EQ(row("pavement-sub-base").source.provenance, Provenance::Published);
    EXPECT_EQ(row("pavement-base-no-binder").source.provenance, Provenance::FromMemory);
}

TEST(TolerancePreset, IrregularitiesAsTO02) {
    expect_counts("rolling-a-surface", {20, 9, 2, 1});
    expect_counts("rolling-a-other", {40, 18, 4, 2});
    expect_counts("rolling-b-surface", {40, 18, 4, 2});
    expect_counts("rolling-b-other", {60, 27, 6, 3});
}

TEST(TolerancePreset, StraightedgesAsTO03AndTO05AndTO08) {
    EXPECT_EQ(row("straightedge-surface").gap_mm, 3);
    EXPECT_EQ(row("straightedge-binder").gap_mm, 6);
    expect_level("kerb", -6, 6);
    EXPECT_EQ(row("kerb").gap_mm, 3);
    expect_level("block-paving", -10, 10);
    EXPECT_EQ(row("block-paving").gap_mm, 5);
    EXPECT_EQ(row("footway").gap_mm, 5);
    for (const char* name :
         {"straightedge-surface", "straightedge-binder", "kerb", "block-paving", "footway"})
        EXPECT_EQ(row(name).over_m, 3);
    expect_level("us-slab-on-ground", -0.75 * 25.4, 0.75 * 25.4);
}

TEST(TolerancePreset, ReinstatementsAsTO04) {
    expect_level("reinstatement-edge", -6, 6);
    expect_level("reinstatement-feature", -6, 6);
    expect_level("reinstatement-drainage", -6, 0);
    expect_level("reinstatement-flush-kerb", 0, 6);
}

TEST(TolerancePreset, SlopesAsTO09AndTO10) {
    EXPECT_NEAR(row("us-walk").fall_max, 0.05, 1e-12);
    EXPECT_NEAR(row("us-ramp").fall_max, 0.08333, 5e-5);
    EXPECT_NEAR(row("us-cross-slope").fall_max, 0.02083, 5e-5);
    // Rises of the flights as printed, to 1 mm.
    EXPECT_NEAR(row("uk-ramp-10").fall_max * 10, 0.500, 0.001);
    EXPECT_NEAR(row("uk-ramp-5").fall_max * 5, 0.333, 0.001);
    EXPECT_NEAR(row("uk-ramp-2").fall_max * 2, 0.166, 0.001);
}

// TO-12: Carmel Area Wastewater District code, (B) and (C).
TEST(TolerancePreset, SewersAsTO12) {
    expect_level("us-sewer-grade", -0.5 * 25.4, 0.5 * 25.4);
    EXPECT_EQ(row("us-sewer-grade").fall_min, 0);
    EXPECT_TRUE(std::isnan(row("us-sewer-grade").fall_max));
}

TEST(TolerancePreset, ATableFindsItsRowByTheSurface) {
    EXPECT_EQ(find_tolerance("pavement", "finished"), &row("pavement-surface"));
    EXPECT_EQ(find_tolerance("pavement", "sub-base"), &row("pavement-sub-base"));
    EXPECT_EQ(find_tolerance("pavement", "base"), &row("pavement-base"));
    EXPECT_EQ(find_tolerance("pavement", "sub"), nullptr);
    EXPECT_EQ(find_tolerance("pavement", ""), nullptr);
    EXPECT_EQ(find_tolerance("", "finished"), nullptr);
    EXPECT_TRUE(is_tolerance_table("rolling-a"));
    EXPECT_FALSE(is_tolerance_table("kerb"));
    EXPECT_FALSE(is_tolerance_table(""));
    EXPECT_EQ(find_tolerance("no such"), nullptr);
}

}  // namespace fallwright::preset
