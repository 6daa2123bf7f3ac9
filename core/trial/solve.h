// solve: what the shots of one check say.
//
// Inside trial only.
#pragma once

#include "trial/shots.h"
#include "trial/trial.h"

namespace fallwright {

// Fills what the shots alone tell: errors, scatter, drift, the shots, whether the tripod was moved.
void solve_trial(const UsableShots& shots, const InstrumentErrors& errors, TrialOutcome& outcome);

}  // namespace fallwright
