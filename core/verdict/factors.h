// factors: what correlated quantities share, as few independent factors as do. Inside verdict only.
//
// Each quantity's error is its own noise and its shares in common causes (set-up height, tilt, cone,
// benchmarks ...). Everything is in units of the quantity's own total sd:
//
//   error_i / sd_i = sum over k of load_ik z_k + own_i e_i,     z, e independent standard normal
//
// The causes of a book may be hundreds; their joint covariance is cut down by a Cholesky factorisation with
// pivots: the quantity with the largest rest of shared error, weighted by how near it is to a limit, gives
// the next factor. What is left over of a quantity's shared error is then moved into its own noise, so every
// variance stays exact and only covariances of the rest are lost. Comparing the two normal distributions
// (Li and Shao's form of the normal comparison lemma, from memory) the joint probability moves by about
//
//   (1 / 4 pi) (sum over i of sqrt(rest_i) w_i)^2,     w_i = exp(-low_i^2 / 4) + exp(-high_i^2 / 4)
//
// at most; factors are added until that is under 1e-5, or until `most` are there.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "verdict/joint.h"

namespace fallwright {

struct Factors {
    std::size_t rank = 0;
    std::vector<double> load;         // row by row, rank a row
    std::vector<double> own;          // per quantity, above 0
    std::vector<double> low, high;    // limits in units of the total sd
    std::vector<std::size_t> pivots;  // the quantity that gave each factor; its later loads are 0

    std::span<const double> loads_of(std::size_t i) const { return {load.data() + i * rank, rank}; }
};

// Each quantity has a variance above 0.
Factors factors_of(std::span<const LimitedSum> sums, std::size_t most);

}  // namespace fallwright
