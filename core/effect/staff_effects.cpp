#include "effect/staff_effects.h"

namespace fallwright {

std::vector<StaffEffect> staff_effects(const Staff& staff) {
    std::vector<StaffEffect> all;
    const auto add = [&all](StaffEffect::Kind kind, double at, Prior prior) {
        if (prior.present) all.push_back({kind, at, prior});
    };
    add(StaffEffect::Kind::Zero, 0, Prior::normal(staff.zero, staff.zero_sd));
    add(StaffEffect::Kind::Scale, 0, Prior::normal(staff.scale, staff.scale_sd));
    for (const Joint& joint : staff.joints)
        add(StaffEffect::Kind::Joint, joint.at, Prior::normal(0, joint.step_sd));
    return all;
}

double staff_coefficient(const StaffEffect& effect, double r, double sign) {
    switch (effect.kind) {
        case StaffEffect::Kind::Zero:
            return sign;
        case StaffEffect::Kind::Scale:
            return sign * r;
        case StaffEffect::Kind::Joint:
            return r > effect.joint_at ? sign : 0;
    }
    return 0;
}

}  // namespace fallwright
