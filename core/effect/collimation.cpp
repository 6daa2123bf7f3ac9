#include "effect/parts.h"

namespace fallwright {

namespace {

// The line of sight of an optical level rises or falls with distance: equal sights cancel it.
Prior collimation_prior(const SetupTerms& setup) {
    return Prior::normal(setup.errors->collimation, setup.errors->collimation_sd);
}

}  // namespace

const Effect collimation = {"collimation",     "the line of sight rises with distance",
                            Scope::Instrument, Part::Nothing,
                            collimation_prior, with_distance};

}  // namespace fallwright
