// ranking: every cause weighed by its prior and the readings, the best of them kept.
//
// Weights are logarithms, comparable with each other and with `none`; `total` is the sum of all, those not
// kept too. One cause alone first; two together only where what the best single one leaves of the global test
// (which knows no design) is still too large: each of the best singles with every other cause of one column,
// prior the product of both.
//
// Cost: a sparse half solve for each checked reading and each cause of a whole set-up, none for each cause of
// a reading: knocks are summed up from the last reading on. Memory: the kept causes only.
#pragma once

#include <optional>
#include <vector>

#include "suspect/causes.h"
#include "suspect/odds.h"

namespace fallwright {

struct Weighed {
    Cause cause;
    double weight = 0;        // ln
    double order = 0;         // the weight, rounded so that rounding does not order equals
    double size = 0, sd = 0;  // of its most probable size
    std::size_t which = 0;    // the column that size belongs to
    std::optional<Cause> with;
    double with_size = 0, with_sd = 0;
};

// The cause of a kind that the readings would show least.
struct LeastSeen {
    bool any = false;
    Cause cause;
    double information = 0;
};

struct Ranking {
    std::vector<Weighed> best;  // the most probable first
    double none = 0;            // ln
    double total = 0;           // ln
    // By kind, of causes that are one column each; of readings only those that something checks.
    std::array<LeastSeen, suspect_kinds> least{};

    double probability(double weight) const;
};

// The order of a weight among others.
double order_of(double weight);

Ranking rank_causes(const Evidence& evidence, const Causes& causes, const SuspectPriors& priors);

}  // namespace fallwright
