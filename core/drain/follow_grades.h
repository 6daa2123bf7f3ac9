// follow_grades: the best inverts for given breaks. Inside drain only.
//
// The linear program of follow.h between two candidates or more, the inverts at them its unknowns. Levels
// count from a datum near the ground, so that they are of the order of 1.
#pragma once

#include <span>
#include <vector>

#include "drain/follow.h"

namespace fallwright::drain {

// Candidates with both ends, and what the road allows there.
struct Stops {
    explicit Stops(const FollowRoad& road);

    std::vector<double> x;        // both ends and the candidates, rising
    std::vector<double> highest;  // there
    double highest_at(const FollowRoad& road, double where) const;
};

struct Graded {
    bool found = false;
    double gain = 0;        // integral of y
    std::vector<double> y;  // at the stops
    std::vector<Held> held;
};

// between: indices of stops, rising, two at least. Inlet and outfall count where the first and the last stop
// are among them; the outfall can be reached (highest_end in follow.cpp). Not found: only where the steps of
// the program ran out.
Graded best_grades(const FollowRoad& road, const FollowLimits& limits, const Stops& stops,
                   std::span<const std::size_t> between);

}  // namespace fallwright::drain
