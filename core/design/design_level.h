// design_level: a level wanted, as a sum that may lean on levels still to be found.
//
//   level = constant + sum of coefficient x level of a named point
//
// A design that hangs under a measured point is as uncertain as that point, and shares its errors with every
// other level found from the same benchmarks. So a design is kept as this sum, not as a number: a verdict
// takes the coefficients into its covariance, and lines can be built before any level is solved. Straight
// grades, parabolas, chambers and joins are all linear in the levels they start from, so nothing is lost.
// Gradients (rise per length) and curvatures (per metre) of such lines are sums of the same form.
//
// Absent (no design there) is a constant of NaN, so arithmetic with an absent level stays absent.
#pragma once

#include <cmath>
#include <functional>
#include <limits>
#include <vector>

#include "book/names.h"

namespace fallwright {

// The level found at a point, metres; NaN where there is none or nothing determines it.
using LevelOf = std::function<double(NameId)>;

// One term of the sum.
struct Hang {
    NameId point = no_name;
    double coefficient = 0;
};

// Example: 0.15 m under the invert found at "MH 4": {-0.15, {{MH 4, 1}}}.
struct DesignLevel {
    double constant = std::numeric_limits<double>::quiet_NaN();  // metres
    std::vector<Hang> hangs;  // by rising NameId, each point once; empty: known without any reading

    bool has() const { return !std::isnan(constant); }
    // As a number; NaN where it is absent or leans on a level that is not there.
    double value(const LevelOf& level_of) const;
};

// a x + b y. Coefficients under 1e-12 are left out: they are rounding of what cancels. A term with a factor
// of 0 does not count, absent or not.
DesignLevel combined(double a, const DesignLevel& x, double b, const DesignLevel& y);
// x + metres.
DesignLevel raised(DesignLevel x, double metres);
// y - x in metres, where nothing they lean on is left in the difference; NaN otherwise.
double difference(const DesignLevel& y, const DesignLevel& x);

}  // namespace fallwright
