// within: how probably a quantity lies between two limits, and what that is called.
//
//   p = Phi((above - x) / sd) - Phi((below - x) / sd)         one-sided: the other term is 1 or 0
//   within where p >= confidence, outside where p <= 1 - confidence, else undecided
// so the guard band follows from the sd: for one limit far away it is 1.645 sd at 95 %. After the pattern of
// JCGM 106:2012 and ISO 14253-1 (texts not at hand, from memory). Nothing is believed of the work beforehand:
// whoever has documented knowledge of how it is usually built may say more.
//
// `plain` compares the figure itself with the limits, as rounded for the result; probabilities are rounded as
// in the result before they are judged.
#pragma once

#include <cstdint>
#include <limits>
#include <string_view>

namespace fallwright {

enum class Verdict : std::uint8_t { Untested, Within, Outside, Undecided };

// An open side is infinite.
struct Limits {
    double below = -std::numeric_limits<double>::infinity();
    double above = std::numeric_limits<double>::infinity();
};

// P(X <= x) of the normal distribution with mean 0 and sd 1.
double normal_cdf(double x);

// sd 0: 1 or 0, the limits themselves count as within. NaN where x or sd is.
double probability_within(double x, double sd, const Limits& limits);

// The verdict of a probability as rounded for the result; Untested where it is NaN.
Verdict verdict_of(double probability, double confidence);

// As in results: "untested", "within", "outside", "undecided".
std::string_view verdict_word(Verdict verdict);

constexpr double usual_confidence = 0.95;

}  // namespace fallwright
