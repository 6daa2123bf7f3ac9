#include "effect/parts.h"

namespace fallwright {

namespace {

// What levelling up leaves, drawn anew at each set-up. A body whose axes are not known has its own tilt in it
// too.
Prior setting_prior(const SetupTerms& setup) {
    return Prior::normal(0, setup.oriented ? setup.errors->setting_tilt_sd : setup.errors->own_tilt_sd());
}

}  // namespace

const Effect setting_tilt_main = {"levelling-up along the main axis",
                                  "the light of this set-up tilts along the main axis",
                                  Scope::Setup,
                                  Part::MainGradient,
                                  setting_prior,
                                  along_main};
const Effect setting_tilt_cross = {"levelling-up along the cross axis",
                                   "the light of this set-up tilts along the cross axis",
                                   Scope::Setup,
                                   Part::CrossGradient,
                                   setting_prior,
                                   along_cross};

}  // namespace fallwright
