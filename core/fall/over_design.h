// over_design: how much of what is there lies over a design, and how sure that is.
//
//   value = level there - level wanted, positive to dig
// with the points it hangs on, so that a design that hangs under a measured point shares that point's errors
// with the ground read from the same light: over_sd() takes their joint covariance, where it is wanted, as it
// costs a solve. Metres; NaN where either is not there.
#pragma once

#include "design/design_level.h"
#include "fall/ground_along.h"

namespace fallwright {

struct OverDesign {
    double value = NAN;
    std::vector<PointTerm> terms;  // value hangs on these levels
};
OverDesign over_design(const LevelAlong& there, const DesignLevel& wanted, const Model& model);
double over_sd(const OverDesign& over, const Model& model);

// One standard deviation of a design: 0 where it leans on no reading, NaN where one of its points is not
// there.
double design_sd(const DesignLevel& wanted, const Model& model);

// The level of a chamber's cover at a chainage of the line; NaN where none is given.
double chamber_lid(const LineEntry& line, double ch);

}  // namespace fallwright
