#include "preset/bulking.h"

#include <gtest/gtest.h>

#include <array>
#include <string_view>
#include <utility>

namespace fallwright::preset {

// TQ-09 Alaska DOT (1983), Church (1981) and FHWA (2007) as compiled on a secondary page, per cent.
TEST(Bulking, ByMaterial) {
    constexpr std::array<std::pair<std::string_view, double>, 19> rows = {{{"sandy-gravel", 5},
                                                                           {"sand", 5},
                                                                           {"silt", 35},
                                                                           {"loess", 35},
                                                                           {"granite", 72},
                                                                           {"limestone", 63},
                                                                           {"sandstone", 61},
                                                                           {"siltstone", 45},
                                                                           {"siliceous-shale", 40},
                                                                           {"rock-3-earth-1", 25},
                                                                           {"rock-1-earth-1", 29},
                                                                           {"rock-1-earth-3", 26},
                                                                           {"andesite", 67},
                                                                           {"basalt", 64},
                                                                           {"clay-dry-50", 50},
                                                                           {"clay-damp", 40},
                                                                           {"clay-dry", 35},
                                                                           {"gravel-dry", 15},
                                                                           {"pit-run", 8}}};
    for (const auto& [material, percent] : rows) {
        const BulkingPreset* found = find_bulking("bulking-" + std::string(material));
        ASSERT_NE(found, nullptr) << material;
        EXPECT_NEAR(found->ratio * 100, percent, 1e-12) << material;
    }
    EXPECT_EQ(find_bulking("bulking-cheese"), nullptr);
}

}  // namespace fallwright::preset
