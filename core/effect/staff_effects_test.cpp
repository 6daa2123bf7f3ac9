#include "effect/staff_effects.h"

#include <gtest/gtest.h>

namespace fallwright {

namespace {

Staff worn() {
    Staff staff;
    staff.zero = 0.002;
    staff.zero_sd = 0.0005;
    staff.scale_sd = 1e-4;
    staff.joints = {{1.2, 0.001}, {2.4, 0}, {3.6, 0.002}};
    return staff;
}

}  // namespace

TEST(StaffEffects, OnlyWhatIsThereInFixedOrder) {
    const std::vector<StaffEffect> all = staff_effects(worn());
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0].kind, StaffEffect::Kind::Zero);
    EXPECT_EQ(all[0].prior.value, 0.002);
    EXPECT_EQ(all[1].kind, StaffEffect::Kind::Scale);
    EXPECT_EQ(all[2].joint_at, 1.2);
    EXPECT_EQ(all[3].joint_at, 3.6);
    EXPECT_EQ(all[3].prior.sd, 0.002);
    EXPECT_TRUE(staff_effects({}).empty());
}

TEST(StaffEffects, AKnownZeroWithoutUncertaintyIsExact) {
    Staff staff;
    staff.zero = 0.002;
    const std::vector<StaffEffect> all = staff_effects(staff);
    ASSERT_EQ(all.size(), 1u);
    EXPECT_TRUE(all[0].prior.present && !all[0].prior.free);
    EXPECT_EQ(all[0].prior.sd, 0);
}

// Contract section 2: s (r - zero - scale r - joints); a joint counts where r > at.
TEST(StaffEffects, CoefficientsCarryTheSignOfTheReading) {
    const std::vector<StaffEffect> all = staff_effects(worn());
    for (const double sign : {1.0, -1.0}) {
        EXPECT_EQ(staff_coefficient(all[0], 1.5, sign), sign);
        EXPECT_EQ(staff_coefficient(all[1], 1.5, sign), 1.5 * sign);
        EXPECT_EQ(staff_coefficient(all[2], 1.5, sign), sign);
        EXPECT_EQ(staff_coefficient(all[2], 1.2, sign), 0);
        EXPECT_EQ(staff_coefficient(all[3], 1.5, sign), 0);
    }
}

}  // namespace fallwright
