// judge: whether an instrument passes, whether its errors matter here, and what a person should know.
//
// Inside trial only.
#pragma once

#include "trial/trial.h"

namespace fallwright {

// Fills what limit, entry and job say of an outcome, and whether it is consistent.
void judge_outcome(const Book& book, const InstrumentErrors& errors, const Job& job, TrialOutcome& outcome);

// Of each check, then of all checks of an instrument together.
void say_outcome(const Book& book, const TrialOutcome& outcome, const InstrumentErrors& errors,
                 Findings& findings);
void say_together(const Book& book, const std::vector<InstrumentErrors>& errors, const Trials& trials,
                  Findings& findings);

}  // namespace fallwright
