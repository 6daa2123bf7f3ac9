#include "effect/parts.h"

namespace fallwright {

namespace {

// How well a grade is set: drawn anew each time an axis is dialled. A matched axis is whatever it is, about
// what the instrument shows. An axis at exactly 0 has none: that is levelling up.
template <int axis>
Prior setting_prior(const SetupTerms& setup) {
    if (setup.matched[axis]) return Prior::unknown(setup.shown[axis].or_else(0));
    return setup.g[axis] != 0 ? Prior::normal(0, setup.errors->grade_sd) : Prior::none();
}

}  // namespace

const Effect grade_setting_main = {"setting of the main grade",
                                   "the main grade is not quite what was dialled",
                                   Scope::Setup,
                                   Part::MainGradient,
                                   setting_prior<0>,
                                   along_main};
const Effect grade_setting_cross = {"setting of the cross grade",
                                    "the cross grade is not quite what was dialled",
                                    Scope::Setup,
                                    Part::CrossGradient,
                                    setting_prior<1>,
                                    along_cross};

}  // namespace fallwright
