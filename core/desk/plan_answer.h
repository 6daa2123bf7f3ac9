// plan_answer: how sure the levels will be before anyone goes out.
//
// The stage plan computes all of it (plan/plan.h, plan/closed_forms.h); here a request is read and looked up
// in the book, and the answer written. What is not in the book is a fault of the request; what cannot be told
// is a finding of the answer.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/options.h"
#include "evaluation/evaluation.h"
#include "plan/closed_forms.h"
#include "plan/plan.h"

namespace fallwright {

struct PlanAnswer {
    std::shared_ptr<const Evaluation> evaluation;
    Plan plan;
    std::vector<NameId> relative_to;  // benchmarks read in it
    double confidence = usual_confidence;
    Findings findings;  // of the book, then of the plan
};

// Options: line, every, what, tolerance, instrument, places (chainages of the line, "40" or "40 L3.5" or "40
// R3.5", or points whose place is known; at most most_places), temperature_difference (degrees), search
// (false: judge only). Lengths without a unit are in the book's.
Result<PlanAnswer> plan_of(const std::shared_ptr<const Book>& book, desk::Options& options,
                           const PlanProgress& progress = {});
// The JSON of api/schema/v1/plan.schema.json; lengths in the book's unit.
std::string plan_json(const PlanAnswer& answer);

// Without a book: what can be told by closed forms.
struct QuickPlan {
    Unit unit = Unit::Metre;
    Kit kit;
    double k = 2;
    double tolerance = NAN, length = NAN, at = NAN;  // metres; NaN: not given
    double warm_up = NAN;                            // minutes
    std::int64_t most_setups = 12;                   // of the table of runs
};

// Options: tolerance, k, reading_sd, sd_per_m, tilt_sd, benchmark_sd, length (of a run, and between two
// benchmarks), at, temperature_difference; unit.
Result<QuickPlan> quick_plan(desk::Options& options);
// The JSON of api/schema/v1/plan-quick.schema.json.
std::string quick_plan_json(const QuickPlan& quick);

}  // namespace fallwright
