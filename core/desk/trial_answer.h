// trial_answer: checks of instruments, as evaluate lists them and as the verb trial tells them in full.
//
// The stage trial computes all of it (trial/trial.h); here it is written.
#pragma once

#include <string>

#include "base/json_out.h"
#include "evaluation/evaluation.h"

namespace fallwright {

// The member "trials" of evaluate, where the book has any.
void write_trials(const Evaluation& evaluation, JsonOut& out);

// The verb trial: each check with its shots, its scatter, what it means at the job's longest sight, and what
// later readings take from all checks of an instrument. Schema: api/schema/v1/trial.schema.json.
void write_checks(const Evaluation& evaluation, JsonOut& out);

}  // namespace fallwright
