// checked: which points no single sight or step cuts from the datum.
//
// Nodes: the datum (all benchmarks together), points, set-ups. One edge for each set-up and point read in it,
// however often (not of matched planes, which take what they find), one for each step. A point is checked
// when it is joined to the datum by two ways that share no edge, that is, when no bridge of the graph lies
// between.
//
// Inside model only.
#pragma once

#include <vector>

#include "model/sights.h"

namespace fallwright {

// Per point. `benchmarks`: per point, whether it belongs to the datum.
std::vector<bool> checked_points(const Book& book, const Points& points, const Sights& sights,
                                 const std::vector<bool>& benchmarks);

}  // namespace fallwright
