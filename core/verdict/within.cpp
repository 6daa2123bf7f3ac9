#include "verdict/within.h"

#include <cmath>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr double root_half = 0.7071067811865476;

}  // namespace

double normal_cdf(double x) {
    return 0.5 * std::erfc(-x * root_half);
}

double probability_within(double x, double sd, const Limits& limits) {
    if (std::isnan(x) || std::isnan(sd)) return NAN;
    const double low = limits.below - x;
    const double high = limits.above - x;
    if (sd == 0) return low <= 0 && high >= 0 ? 1 : 0;
    // The tail on the nearer side is the exact one.
    if (low > 0) return normal_cdf(-low / sd) - normal_cdf(-high / sd);
    return normal_cdf(high / sd) - normal_cdf(low / sd);
}

Verdict verdict_of(double probability, double confidence) {
    if (std::isnan(probability)) return Verdict::Untested;
    const double p = rounded_to(probability, probability_places);
    if (p >= rounded_to(confidence, probability_places)) return Verdict::Within;
    return p <= rounded_to(1 - confidence, probability_places) ? Verdict::Outside : Verdict::Undecided;
}

std::string_view verdict_word(Verdict verdict) {
    switch (verdict) {
        case Verdict::Within:
            return "within";
        case Verdict::Outside:
            return "outside";
        case Verdict::Undecided:
            return "undecided";
        default:
            return "untested";
    }
}

}  // namespace fallwright
