// rows: the shots of a check as rows of adjust, with the effects of the one dictionary (effect/).
//
// Inside trial only.
#pragma once

#include "adjust/adjust.h"
#include "effect/checked.h"
#include "trial/shots.h"

namespace fallwright {

// How the rows are made: the same shots are solved in a few ways.
struct Ways {
    bool moved = false;     // the tripod was moved between named turns: a height for each of them
    bool drifting = false;  // a drift from shot to shot, in their order
    double believed = 0;    // sd of each tested error about 0; 0: free
};

struct TrialProblem {
    adjust::Problem problem;
    std::array<adjust::Column, tested_errors> errors{-1, -1, -1, -1};  // -1: not tested
    adjust::Column drift = -1;
};

// tested: which errors. The rows are those of the shots, in their order.
TrialProblem trial_rows(const UsableShots& shots, const InstrumentErrors& errors,
                        const std::array<bool, tested_errors>& tested, const Ways& ways);

}  // namespace fallwright
