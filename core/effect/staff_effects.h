// staff_effects: what a staff does to its readings: zero, scale, joints. They stand on the left of the row,
// with the reading's sign, so that a zero error cancels between two upright readings and doubles between
// upright and inverted.
#pragma once

#include <vector>

#include "book/entry.h"
#include "effect/effect.h"

namespace fallwright {

// One parameter of one staff. joint_at: where it is a joint, readings above it are concerned.
struct StaffEffect {
    enum class Kind : std::uint8_t { Zero, Scale, Joint } kind;
    double joint_at;
    Prior prior;
};

// Those of a staff that are there at all, in fixed order: zero, scale, joints as the book lists them.
std::vector<StaffEffect> staff_effects(const Staff& staff);

// Its coefficient on the left of the row for a figure r (metres, positive) and the reading's sign: sign, sign
// r, or sign above the joint.
double staff_coefficient(const StaffEffect& effect, double r, double sign);

}  // namespace fallwright
