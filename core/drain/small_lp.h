// small_lp: a linear program in few unknowns under many limits that each name two neighbours. Inside drain
// only.
//
//   greatest  gain . x    under  first x_i + second x_(i+1) <= most   for every limit
// by the simplex method on the corners themselves: from one corner to a better neighbour until none is
// better. Ties are broken by the smallest index (Bland), so it ends on degenerate corners too. Any textbook
// of optimization; tested against SciPy's linprog through whole roads (tests/drain).
//
// The caller gives a corner to begin with: as many limits as unknowns, independent, all others kept. Sizes in
// mind: ten unknowns, thousands of limits. Values should be of the order of 1: shift levels to a nearby
// datum.
#pragma once

#include <cstddef>
#include <vector>

namespace fallwright::drain {

struct Limit {
    std::size_t unknown = 0;       // of `first`; `second` belongs to the one after it
    double first = 0, second = 0;  // second is 0 where it would name none
    double most = 0;
};

struct LpCorner {
    std::vector<double> x;
    std::vector<std::size_t> tight;  // indices of limits, one for each unknown
    std::vector<double> price;       // of each of `tight`: what the gain grows by for 1 more of `most`
    bool found = false;              // false: the steps ran out, or the corner given was none
};

// gain: one for each unknown, in directions that the limits bound.
LpCorner best_corner(const std::vector<double>& gain, const std::vector<Limit>& limits,
                     std::vector<std::size_t> tight);

}  // namespace fallwright::drain
