#include "effect/checked.h"

#include <cmath>

namespace fallwright {

Prior checked_prior(const CheckedErrors* checked, std::size_t which, const Effect& effect,
                    const SetupTerms& setup) {
    const Prior entry = effect.prior(setup);
    if (checked == nullptr || which >= tested_errors || !entry.present) return entry;
    return Prior::normal(checked->value[which], std::sqrt(checked->covariance[which][which]));
}

}  // namespace fallwright
