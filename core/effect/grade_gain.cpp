#include "effect/parts.h"

namespace fallwright {

namespace {

// A dialled grade comes out too large or too small in proportion.
template <int axis>
Prior gain_prior(const SetupTerms& setup) {
    const bool dialled = setup.g[axis] != 0 && !setup.matched[axis];
    return dialled ? Prior::normal(0, setup.errors->grade_gain_sd) : Prior::none();
}

double gain_main(const SetupTerms& setup, const SightTerms& sight) {
    return setup.g[0] * sight.u;
}
double gain_cross(const SetupTerms& setup, const SightTerms& sight) {
    return setup.g[1] * sight.v;
}

}  // namespace

const Effect grade_gain_main = {"gain of the main grade",
                                "the main grade comes out in proportion too steep",
                                Scope::Instrument,
                                Part::MainGradient,
                                gain_prior<0>,
                                gain_main};
const Effect grade_gain_cross = {"gain of the cross grade",
                                 "the cross grade comes out in proportion too steep",
                                 Scope::Instrument,
                                 Part::CrossGradient,
                                 gain_prior<1>,
                                 gain_cross};

}  // namespace fallwright
