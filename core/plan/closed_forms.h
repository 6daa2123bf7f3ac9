// closed_forms: what can be told before anything is laid out, by hand if need be.
//
// With one laser (reading_sd r, tilt of its plane t per length, benchmark b), measurement-model section 7:
//   farthest a point may lie from its benchmark        D = sqrt((T/k)^2 - b^2 - 2 r^2) / t
//   run of N set-ups over L, turned half round alternately, sights balanced
//                                                      u^2(N) = 2 N r^2 + (t L)^2 / N
//                                                      least at N = t L / (sqrt2 r)
//   two benchmarks L apart in one set-up, point at s   line between them, tilt with its prior 0 +- t
// With an optical level (a at once, g per metre of sight):
//   longest balanced sight for +-T                     sqrt(((T/k)^2 / 2 - a^2) / g^2)
//   run of N set-ups                                   u^2(N) = 2 N a^2 + g^2 L^2 / (2 N), least at N = g L /
//   (2 a)
// They are the same model as the whole program with few effects in it; the two agree (cases plan-*). Metres,
// tilts as ratios, one standard deviation; k: the T that must hold is k standard deviations.
#pragma once

#include <cmath>
#include <cstdint>
#include <vector>

namespace fallwright {

struct Kit {
    double reading_sd = 0.0012;
    double sd_per_m = 0;      // of an optical level
    double tilt_sd = 0;       // lasting and of each levelling-up together
    double benchmark_sd = 0;  // of each benchmark
};

// NaN where T cannot be met at any distance; infinite where distance costs nothing.
double longest_distance(const Kit& kit, double tolerance, double k);
// How many readings of each end must be averaged so that it can be met close by; 1: as it is; 0: no number
// does, since the benchmark alone costs too much.
std::int64_t readings_to_average(const Kit& kit, double tolerance, double k);
// NaN where T cannot be met at any sight; infinite where the sight costs nothing.
double longest_balanced_sight(const Kit& kit, double tolerance, double k);

// sd of the level at the end of a run of n set-ups over a length.
double run_sd(const Kit& kit, double length, double n);
struct BestRun {
    double best = 0;     // the number of set-ups that would be best, no whole one; NaN where none is
    double best_sd = 0;  // at that number
    std::int64_t setups = 1;
    double sd = 0;  // at the whole number
};
BestRun best_run(const Kit& kit, double length);

// A point at s from the first of two benchmarks `length` apart, all read in one set-up; with the point's own
// reading.
struct Between {
    double one = 0;   // from the first benchmark alone
    double free = 0;  // from both, nothing believed of the tilt
    double both = 0;  // from both, with what is believed of it
};
Between between_benchmarks(const Kit& kit, double length, double s);

}  // namespace fallwright
