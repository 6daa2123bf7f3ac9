#include "effect/parts.h"

namespace fallwright {

namespace {

// The body is aimed a little beside its bearing. It costs through the grade across: gx v - gy u for one
// radian clockwise.
Prior aim_prior(const SetupTerms& setup) {
    const bool sloped = setup.g[0] != 0 || setup.g[1] != 0;
    return sloped ? Prior::normal(0, setup.errors->aim_sd) : Prior::none();
}

double beside(const SetupTerms& setup, const SightTerms& sight) {
    return setup.g[0] * sight.v - setup.g[1] * sight.u;
}

}  // namespace

const Effect aim = {
    "aim", "the body is turned a little beside its bearing", Scope::Tripod, Part::Nothing, aim_prior, beside};

}  // namespace fallwright
