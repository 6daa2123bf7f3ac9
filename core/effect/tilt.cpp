#include "effect/parts.h"

namespace fallwright {

namespace {

// The body's own tilt, left by its calibration; it turns with the body, so a half turn at alternate set-ups
// cancels it.
template <int axis>
Prior tilt_prior(const SetupTerms& setup) {
    if (!setup.oriented) return Prior::none();
    return Prior::normal(setup.errors->tilt[axis], setup.errors->tilt_sd);
}

}  // namespace

const Effect tilt_main = {"tilt along the main axis",
                          "the light tilts along the main axis, with the body",
                          Scope::Instrument,
                          Part::MainGradient,
                          tilt_prior<0>,
                          along_main};
const Effect tilt_cross = {"tilt along the cross axis",
                           "the light tilts along the cross axis, with the body",
                           Scope::Instrument,
                           Part::CrossGradient,
                           tilt_prior<1>,
                           along_cross};

}  // namespace fallwright
