// trace: what moves if a benchmark's value, or the figure of a reading, is out by so much.
//
// With the column c of that cause, levels move by -b C A' P c, C the covariance of the unknowns: what they
// would be less what they are booked as now. A benchmark held fixed moves by -b itself. No design counts
// here. Metres, booked - true, so that levels that lean on a benchmark given too high come down.
#pragma once

#include <string_view>
#include <vector>

#include "design/design.h"
#include "model/model.h"
#include "suspect/kind.h"

namespace fallwright {

struct Traced {
    bool found = false;  // whether there is such a benchmark or reading
    bool is_benchmark = false;
    std::vector<double> moves;  // by point; NaN where undetermined
};

// name: the point of a benchmark, or the id of a reading that is evaluated; a benchmark wins.
Traced trace_cause(const Book& book, const Where& where, const Figures& figures, const Model& model,
                   std::string_view name, double by);

}  // namespace fallwright
