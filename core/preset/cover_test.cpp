#include "preset/cover.h"

#include <gtest/gtest.h>

namespace fallwright::preset {

// PL-11 Sewers for Adoption as quoted by a precast drainage trade body (2018): the five rows of the table.
TEST(Cover, LeastByWhatLiesAbove) {
    const std::span<const CoverPreset> rows = cover_presets();
    ASSERT_EQ(rows.size(), 5U);
    EXPECT_EQ(find_cover("cover-garden")->least, 0.35);
    EXPECT_EQ(find_cover("cover-drive")->least, 0.5);
    EXPECT_EQ(find_cover("cover-narrow-street")->least, 0.9);
    EXPECT_EQ(find_cover("cover-field")->least, 0.9);
    EXPECT_EQ(find_cover("cover-highway")->least, 1.2);
    for (const CoverPreset& row : rows) EXPECT_EQ(row.source.provenance, Provenance::Published);
    EXPECT_EQ(find_cover("cover-moon"), nullptr);
}

}  // namespace fallwright::preset
