#include "effect/parts.h"

namespace fallwright {

namespace {

// How well a grade is set: drawn anew each time an axis is dialled. A matched axis is whatever it is, about
// what the instrument shows; exactly that where its display is said to be exact. An axis at exactly 0 has
// none: that is levelling up.
template <int axis>
Prior setting_prior(const SetupTerms& setup) {
    const Maybe& shown = setup.shown[axis];
    const bool exact = shown.has() && setup.errors->grade_sd == 0 && setup.errors->grade_step == 0;
    if (setup.matched[axis]) return exact ? Prior::normal(shown.value, 0) : Prior::unknown(shown.or_else(0));
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
