#include "effect/effect.h"

#include "effect/parts.h"

namespace fallwright {

namespace {

constexpr std::array<const Effect*, 6> of_instruments = {&tilt_main,   &tilt_cross,      &cone,
                                                         &collimation, &grade_gain_main, &grade_gain_cross};
constexpr std::array<const Effect*, setup_effect_count> of_setups = {
    &setting_tilt_main, &setting_tilt_cross, &grade_setting_main, &grade_setting_cross, &aim};

}  // namespace

std::span<const Effect* const> instrument_effects() {
    return of_instruments;
}

const Effect* grade_setting(std::size_t axis) {
    return axis == 0 ? &grade_setting_main : &grade_setting_cross;
}

std::span<const Effect* const, setup_effect_count> setup_effects() {
    return of_setups;
}

}  // namespace fallwright
