// parts: what the files of effects share, and the list of them.
//
// Inside effect only.
#pragma once

#include "effect/effect.h"

namespace fallwright {

// A new effect: write its file with prior, coefficient and sentence, declare it here, list it in effect.cpp.
// Nothing else changes: the model asks the list.

// Coefficients that several effects have: the parameter is a gradient along an axis, or grows with distance
// whatever the direction.
inline double along_main(const SetupTerms&, const SightTerms& sight) {
    return sight.u;
}
inline double along_cross(const SetupTerms&, const SightTerms& sight) {
    return sight.v;
}
inline double with_distance(const SetupTerms&, const SightTerms& sight) {
    return sight.d;
}

// One file each: tilt.cpp, cone.cpp, collimation.cpp, grade_gain.cpp belong to an instrument;
// setting_tilt.cpp, grade_setting.cpp, aim.cpp to a set-up. effect.cpp lists them in the order of their
// columns.
extern const Effect tilt_main, tilt_cross;
extern const Effect cone, collimation;
extern const Effect grade_gain_main, grade_gain_cross;
extern const Effect setting_tilt_main, setting_tilt_cross;
extern const Effect grade_setting_main, grade_setting_cross;
extern const Effect aim;

}  // namespace fallwright
