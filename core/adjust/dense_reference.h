// For the tests of this stage only: small networks drawn at random, and the plain textbook inverse of their
// normal matrix, every prior and every column written out. Nothing of the engine is used.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "adjust/adjust.h"

namespace fallwright::adjust::dense {

// Linear congruential generator with Knuth's MMIX constants: the same draws everywhere.
struct Draw {
    std::uint64_t state;

    double uniform();                       // 0 <= value < 1
    std::int32_t below(std::size_t count);  // 0 <= value < count
};

using Matrix = std::vector<std::vector<double>>;  // square, by rows

// sum a a^T / V over rows, plus 1 / psd^2 on the diagonal. V = sd^2 + folded.
Matrix normal_matrix(const Problem& problem);

// Gauss and Jordan with the largest pivot of each column. The matrix must be regular: a pivot of 0 gives
// values that are not finite.
Matrix inverse(Matrix matrix);

// a^T M b for two sums of columns.
double form(const Matrix& m, std::span<const Term> a, std::span<const Term> b);

// `set_ups` of `sights` readings each, in metres: points, a height and a tilt of 2e-5 a set-up, one column of
// 5e-5 that all rows share, one benchmark of 2 mm. Every point is read once more by itself, to 5 cm, so that
// the network is of full rank whatever was drawn.
Problem network(std::uint64_t seed, std::size_t set_ups, std::size_t sights);

}  // namespace fallwright::adjust::dense
