// joint: the probability that many correlated quantities are all between their limits.
//
// Levels of one line share set-ups, instruments and benchmarks: if one is truly lower than measured, so are
// its neighbours. So the probabilities of single stations must not be multiplied. Given the few factors that
// they share (factors.h) they are independent, and
//
//   P = E over z of product over i of [Phi((high_i - load_i z) / own_i) - Phi((low_i - load_i z) / own_i)]
//
// which is integrated over fixed points (lattice.h), each factor
// drawn from what its pivot's limits leave of it (sequential conditioning after Genz 1992, from memory). No
// random numbers: the same input gives the same bytes.
//
//   Limiting cases    one quantity: its own probability. Independent ones: the product. Fully correlated
//   ones:
//                     the probability of the tightest limits. Always at most the smallest single one.
//   Left out          quantities that are outside with so small a probability that all of them together
//                     change P by less than 1e-6.
//   Accuracy          better than a simulation of a million draws (standard error sqrt(P (1-P) / 1e6)) while
//                     quantities x points stay within a fixed amount of work: some hundred quantities. For
//                     ten thousand that are all near a limit about 0.005. docs/methods/verdict.md has
//                     measured figures.
#pragma once

#include <vector>

#include "adjust/adjust.h"
#include "verdict/within.h"

namespace fallwright {

// limits: for the quantity's error, true less measured. parts: that error in independent parts.
struct LimitedSum {
    Limits limits;
    std::vector<adjust::Part> parts;
};

// 0..1. No quantities: 1.
double joint_probability(std::vector<LimitedSum> sums);

}  // namespace fallwright
