#include "plan/closed_forms.h"

#include <limits>

namespace fallwright {

namespace {

constexpr double open = std::numeric_limits<double>::infinity();

double square(double x) {
    return x * x;
}

// sqrt(left) / per, NaN where nothing is left.
double reach(double left, double per) {
    if (!(left >= 0)) return NAN;
    return per > 0 ? std::sqrt(left) / per : open;
}

}  // namespace

double longest_distance(const Kit& kit, double tolerance, double k) {
    return reach(square(tolerance / k) - square(kit.benchmark_sd) - 2 * square(kit.reading_sd), kit.tilt_sd);
}

std::int64_t readings_to_average(const Kit& kit, double tolerance, double k) {
    const double left = square(tolerance / k) - square(kit.benchmark_sd);
    if (!(left > 0)) return 0;
    return static_cast<std::int64_t>(std::fmax(1, std::ceil(2 * square(kit.reading_sd) / left)));
}

double longest_balanced_sight(const Kit& kit, double tolerance, double k) {
    return reach(square(tolerance / k) / 2 - square(kit.reading_sd), kit.sd_per_m);
}

double run_sd(const Kit& kit, double length, double n) {
    const double tilts = square(kit.tilt_sd * length) / n;
    const double sights = square(kit.sd_per_m * length) / (2 * n);
    return std::sqrt(2 * n * square(kit.reading_sd) + tilts + sights);
}

BestRun best_run(const Kit& kit, double length) {
    BestRun run;
    const double grows = square(kit.tilt_sd) + square(kit.sd_per_m) / 2;
    run.best = length * std::sqrt(grows / 2) / kit.reading_sd;
    run.best_sd = run.best > 0 ? run_sd(kit, length, run.best) : NAN;
    const double below = std::fmax(1, std::floor(run.best));
    const bool up = run_sd(kit, length, below + 1) < run_sd(kit, length, below);
    run.setups = static_cast<std::int64_t>(up ? below + 1 : below);
    run.sd = run_sd(kit, length, static_cast<double>(run.setups));
    return run;
}

Between between_benchmarks(const Kit& kit, double length, double s) {
    const double own = square(kit.reading_sd);
    const double end = own + square(kit.benchmark_sd);
    const double share = s / length;
    Between between;
    between.one = std::sqrt(own + end + square(kit.tilt_sd * s));
    between.free = std::sqrt(own + end * (square(1 - share) + square(share)));
    // Normal matrix of the plane's height at the first benchmark and its tilt.
    const double n11 = 2 / end;
    const double n12 = length / end;
    const double n22 = square(length) / end + 1 / square(kit.tilt_sd);
    const double determinant = n11 * n22 - n12 * n12;
    const double variance = (n22 - 2 * s * n12 + square(s) * n11) / determinant;
    between.both = kit.tilt_sd > 0 ? std::sqrt(own + variance) : std::sqrt(own + end / 2);
    return between;
}

}  // namespace fallwright
