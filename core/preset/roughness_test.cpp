#include "preset/roughness.h"

#include <gtest/gtest.h>

namespace fallwright::preset {

// IR-08, from memory, not confirmed: index 1-3, 3-5, 5-7, 7-10, 10-15, 15-20 m/km.
TEST(StaffClasses, AsRemembered) {
    constexpr std::array<double, 6> index = {2, 4, 6, 8.5, 12, 18};
    constexpr std::array<double, 6> class_1 = {0.5, 1.0, 1.5, 2.0, 3.0, 4.0};
    constexpr std::array<double, 6> class_2 = {1.0, 2.0, 3.0, 4.0, 6.0, 8.0};
    for (std::size_t i = 0; i < index.size(); ++i) {
        const auto classes = staff_classes(index.at(i));
        EXPECT_DOUBLE_EQ(classes[0].resolution_mm, class_1.at(i));
        EXPECT_DOUBLE_EQ(classes[1].resolution_mm, class_2.at(i));
    }
    EXPECT_DOUBLE_EQ(staff_classes(0)[0].resolution_mm, 0.5);
    EXPECT_DOUBLE_EQ(staff_classes(30)[0].resolution_mm, 4);
    EXPECT_DOUBLE_EQ(staff_classes(2)[0].interval_m, 0.25);
    EXPECT_DOUBLE_EQ(staff_classes(2)[1].interval_m, 0.5);
}

// IR-09: ASTM E1364-95 (2017), scope.
TEST(StaffClasses, ErrorsOfTheIndexAsPublished) {
    EXPECT_DOUBLE_EQ(staff_classes(2)[0].largest_error, 0.02);
    EXPECT_DOUBLE_EQ(staff_classes(2)[1].largest_error, 0.05);
}

}  // namespace fallwright::preset
