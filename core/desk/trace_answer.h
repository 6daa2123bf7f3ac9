// trace_answer: which levels move and which verdicts change if a benchmark or a reading is out by so much.
//
// Nothing is solved again: levels move in proportion (suspect/trace.h), verdicts are judged anew with the
// moved levels and the same sds. A design that hangs under a measured point moves with it. First order, as
// the model is; of values that are wrong by metres it says the direction only.
#pragma once

#include <string>
#include <vector>

#include "desk/options.h"
#include "evaluation/evaluation.h"
#include "fall/falls.h"
#include "verdict/within.h"

namespace fallwright {

// A station of a line whose verdict would be another.
struct ChangedVerdict {
    std::size_t line = 0;
    Station station;
    Verdict before = Verdict::Untested, after = Verdict::Untested;
    double deviation_before = 0, deviation_after = 0;
};

struct TraceAnswer {
    std::string name;           // of the benchmark's point, or the reading's id
    double by = 0;              // metres, booked - true
    std::vector<double> moves;  // by point; NaN where undetermined
    std::vector<ChangedVerdict> changed;
};

namespace desk {

// Options trace (a name) and by (a length, default 10 mm). The evaluation is of the same book.
Result<TraceAnswer> trace_of(const Evaluation& evaluation, Options& options);

// {version, unit, trace {name, by, moves, verdicts}}; points that move by less than is printed are left out.
std::string trace_json(const Evaluation& evaluation, const TraceAnswer& answer);

}  // namespace desk

}  // namespace fallwright
