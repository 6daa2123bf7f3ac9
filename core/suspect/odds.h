// odds: how much more probable the readings are if a cause is there.
//
// With pull q = c' M y and information I = c' M c (evidence.h), ln of the Bayes factor against "nothing":
//   known size b       b q - b^2 I / 2
//   free, sd s         q^2 / (2 (I + 1/s^2)) - ln(1 + s^2 I) / 2
//   several columns    q' (I + S^-1)^-1 q / 2 - ln det(1 + S I) / 2
// and what the readings then say of the size: free, mean q / (I + 1/s^2), variance 1 / (I + 1/s^2).
//
// Source: Bayes factor of a normal linear model; every term is elementary. Checked against dense matrices
// (tests/suspect) and the worked data set of the cases.
#pragma once

#include <limits>
#include <span>
#include <vector>

#include "suspect/causes.h"

namespace fallwright {

// ln odds of what cannot be.
constexpr double never = -std::numeric_limits<double>::infinity();

// A size as the readings see it.
struct FoundSize {
    double log_odds = 0;
    double size = 0, sd = 0;
};

FoundSize odds_known(const Pull& found, double size);
FoundSize odds_free(const Pull& found, double sd);

// All sizes of one cause together, shares counted in; size and sd of the most probable one.
FoundSize odds_of(const Pull& found, const Sizes& sizes);

// Several columns at once, at most three: what each pulls, their joint information (row by row), prior sds.
// size, sd: of the column whose found size is the largest against its prior sd; `which` says which.
struct JointOdds {
    FoundSize found;
    std::size_t which = 0;
};
JointOdds odds_joint(std::span<const double> pull, std::span<const double> information,
                     std::span<const double> sd);

// A sum of weights of which the logarithms are known, without overflow: held against the largest so far, so
// that one more costs one exponential.
class LogSum {
  public:
    explicit LogSum(double log_weight) : highest_(log_weight) {}
    void add(double log_weight);
    double log() const;

  private:
    double highest_, sum_ = 1;  // in units of e^highest
};

}  // namespace fallwright
