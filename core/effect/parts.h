// parts: what the files of effects share, and the list of them.
#pragma once

#include "effect/effect.h"

namespace fallwright {

inline double along_main(const SetupTerms&, const SightTerms& sight) {
    return sight.u;
}
inline double along_cross(const SetupTerms&, const SightTerms& sight) {
    return sight.v;
}
inline double with_distance(const SetupTerms&, const SightTerms& sight) {
    return sight.d;
}

extern const Effect tilt_main, tilt_cross;
extern const Effect cone, collimation;
extern const Effect grade_gain_main, grade_gain_cross;
extern const Effect setting_tilt_main, setting_tilt_cross;
extern const Effect grade_setting_main, grade_setting_cross;
extern const Effect aim;

}  // namespace fallwright
