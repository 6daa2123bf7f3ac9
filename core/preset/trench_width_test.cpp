#include "preset/trench_width.h"

#include <gtest/gtest.h>

#include <array>

namespace fallwright::preset {

namespace {

constexpr double inch = 0.0254;

double width(std::string_view name, double bore, double outside, double depth) {
    const TrenchWidthPreset* preset = find_trench_width(name);
    EXPECT_NE(preset, nullptr) << name;
    return preset != nullptr ? preset->least(bore, outside, depth) : -1;
}

}  // namespace

// TQ-01 EN 1610, from memory but for the first rows: OD + 0.40, 0.50, 0.70, 0.85, 1.00 by bore to 225, 350,
// 700, 1200 and above; 0.40 whatever the bore where the sides lie at 60 degrees or flatter.
TEST(TrenchWidth, AddsToThePipeByItsBore) {
    const std::array<double, 5> bores = {0.225, 0.350, 0.700, 1.200, 1.201};
    const std::array<double, 5> add = {0.40, 0.50, 0.70, 0.85, 1.00};
    for (std::size_t i = 0; i < bores.size(); ++i) {
        const double outside = bores[i] + 1;  // so that depth asks for nothing
        EXPECT_NEAR(width("trench-en-1610-supported", bores[i], outside, 5), outside + add[i], 1e-12);
        EXPECT_NEAR(width("trench-en-1610-steep", bores[i], outside, 5), outside + add[i], 1e-12);
        EXPECT_NEAR(width("trench-en-1610-flat", bores[i], outside, 5), outside + 0.40, 1e-12);
    }
    EXPECT_NEAR(width("trench-en-1610-supported", 0.226, 1.226, 5), 1.726, 1e-12);
}

// TQ-01: nothing under 1.00 m, then 0.80, over 1.75 m 0.90, over 4.00 m 1.00; the larger of the two governs.
TEST(TrenchWidth, ByDepthWhereThatIsMore) {
    const std::array<std::array<double, 2>, 7> rows = {
        {{0.99, 0.56}, {1.00, 0.80}, {1.75, 0.80}, {1.76, 0.90}, {4.00, 0.90}, {4.01, 1.00}, {-1, 0.56}}};
    for (const auto& [depth, wanted] : rows)
        EXPECT_NEAR(width("trench-en-1610-supported", 0.15, 0.16, depth), wanted, 1e-12) << depth;
    EXPECT_NEAR(width("trench-en-1610-supported", 0.6, 0.72, 3), 1.42, 1e-12);
}

// TQ-02 ASTM D2321-05 and the rule for concrete pipes, as quoted by a course on pipe laying: the plastic
// pipe's formulas cross at an outside diameter of 16 in; 24 in takes 42 in; concrete of 30 in outside 40 in.
TEST(TrenchWidth, OfPlasticAndConcretePipe) {
    EXPECT_NEAR(width("trench-astm-d2321", 15 * inch, 16 * inch, 2), 32 * inch, 1e-12);
    EXPECT_NEAR(width("trench-astm-d2321", 7 * inch, 8 * inch, 2), 24 * inch, 1e-12);
    EXPECT_NEAR(width("trench-astm-d2321", 23 * inch, 24 * inch, 2), 42 * inch, 1e-12);
    EXPECT_NEAR(width("trench-concrete-third", 24 * inch, 30 * inch, 2), 40 * inch, 1e-12);
}

// A note must say so wherever a rule from memory is used.
TEST(TrenchWidth, SaysWhatIsFromMemory) {
    EXPECT_EQ(find_trench_width("trench-en-1610-steep")->source.provenance, Provenance::FromMemory);
    EXPECT_EQ(find_trench_width("trench-astm-d2321")->source.provenance, Provenance::Published);
    EXPECT_EQ(find_trench_width("trench"), nullptr);
}

}  // namespace fallwright::preset
