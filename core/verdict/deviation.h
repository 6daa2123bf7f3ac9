// deviation: the levels that a station's deviation from its design is a sum of.
#pragma once

#include <vector>

#include "design/design.h"
#include "fall/fit.h"

namespace fallwright {

// Its own level, less those its design hangs under (design/design_level.h), as verdicts take them into their
// covariance; empty where it has no design, or leans on a level that is not there.
std::vector<PointTerm> deviation_terms(const Book& book, const Design& design, const Model& model,
                                       const Station& station);

}  // namespace fallwright
