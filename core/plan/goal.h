// goal: what is asked for at a point, and how sure one must be to prove it.
//
// A level is proved within its tolerance where the probability of that is at least `confidence` (verdict/
// within.h). Of a tolerance of two sides with half width T, at one standard deviation u and 95 %:
//   anything at all can be proved    only if  u <= T / 1.960
//   half the tolerance is left to the builder (T - 1.645 u >= T / 2)   if  u <= T / 3.290
//   a deviation from the middle can be proved up to the margin a:  P(within at a) = confidence, exact
// measurement-model section 5; checked by dec-empty and dec-accept-*. Metres throughout.
#pragma once

#include <cmath>

#include "verdict/within.h"

namespace fallwright {

// Half: half of the tolerance and more is left to the builder. Narrow: something can be proved, if it is
// built better than that. Nothing: nothing can, however well it is built. OneSided: only a guard can be told.
enum class Proof : std::uint8_t { NoTolerance, Half, Narrow, Nothing, OneSided };
// As in results: "half", "narrow", "nothing", "one-sided"; "" where there is no tolerance.
std::string_view proof_word(Proof proof);

struct Goal {
    Limits limits;  // both open: no tolerance
    double confidence = usual_confidence;

    bool any() const { return !std::isinf(limits.below) || !std::isinf(limits.above); }
    bool two_sided() const { return !std::isinf(limits.below) && !std::isinf(limits.above); }
    // NaN for one side or none.
    double half_width() const;
    // The largest u with which anything can be proved, and that with which half is left; NaN likewise.
    double largest_sd() const;
    double half_sd() const;
};

struct Provable {
    Proof proof = Proof::NoTolerance;
    double margin =
        NAN;  // how far off the middle can still be proved; NaN where nothing can, or one side is open
    double guard = NAN;  // how far inside a limit a measured level must lie
};
Provable provable(const Goal& goal, double sd);

// x with P(X <= x) = p of the standard normal distribution, within 1e-12; 0 < p < 1.
double normal_quantile(double p);

}  // namespace fallwright
