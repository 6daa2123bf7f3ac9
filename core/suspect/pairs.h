// pairs: two blunders in one book, weighed only where one alone leaves too much.
//
// For the best singles A, one column each, and every other cause B of the kept ones: B's pull and information
// once A is there,
//   A known, size a    q_B - a I_AB,                       I_B
//   A free, sd s       q_B - I_AB q_A / (I_A + 1/s^2),     I_B - I_AB^2 / (I_A + 1/s^2)
// Weight: both priors, A's odds and B's given A. Each pair once.
//
// Inside suspect only.
#pragma once

#include <functional>

#include "suspect/ranking.h"

namespace fallwright {

void add_pairs(const Evidence& evidence, const Causes& causes,
               const std::function<double(const Cause&)>& log_prior, Ranking& ranking);

}  // namespace fallwright
