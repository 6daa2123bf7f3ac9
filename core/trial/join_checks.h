// join_checks: several checks and the instrument's entry become one prior.
//
// Inside trial only.
#pragma once

#include "trial/trial.h"

namespace fallwright {

// What the entry says of the errors a check can see, in their order; sd 0: exactly so.
struct EntryErrors {
    ErrorVector value{}, sd{};
};

EntryErrors entry_errors(const InstrumentErrors& errors);

// Inverse covariances add up: those of the consistent checks of each instrument and stretch, and that of the
// entry. An error the entry knows exactly stays so. errors: by instrument.
CheckedInstruments join_checks(const std::vector<TrialOutcome>& outcomes,
                               const std::vector<InstrumentErrors>& errors);

}  // namespace fallwright
