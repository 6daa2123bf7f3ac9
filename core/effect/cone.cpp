#include "effect/parts.h"

namespace fallwright {

namespace {

// The light is no plane but a flat cone: equal distances cancel it.
Prior cone_prior(const SetupTerms& setup) {
    return Prior::normal(setup.errors->cone, setup.errors->cone_sd);
}

}  // namespace

const Effect cone = {"cone",
                     "the light rises with distance, alike in all directions",
                     Scope::Instrument,
                     Part::Nothing,
                     cone_prior,
                     with_distance};

}  // namespace fallwright
