// approximate: levels and planes to start from, so that the model solves for small corrections.
//
// Carried from the benchmarks along readings and steps, the first way that comes; parts without a benchmark
// start at 100.
//
// Inside model only.
#pragma once

#include <vector>

#include "model/sights.h"

namespace fallwright {

// What is held, per point: NaN where it is not known beforehand.
struct Approximate {
    std::vector<double> levels;  // per point
    std::vector<double> planes;  // per set-up; a shared head has its tripod's
};

Approximate approximate(const Book& book, const Points& points, const Sights& sights, const Where& where,
                        const std::vector<double>& known);

// What the dialled plane and the curvature put between plane and staff, metres.
double plane_offset(const SetupTerms& setup, const SightRow& row);

}  // namespace fallwright
