// The one printing rule: round to 1e-10 first, then half away from zero to the place. No -0.
//
// The first rounding removes what different mathematics libraries leave in the last bits, so that the same
// book gives the same bytes natively and in the browser. Thresholds and sorting use rounded_to() as well. A
// value that is not finite prints as "null" (JSON) and never reaches people.
#pragma once

#include <cstddef>
#include <string>

namespace fallwright {

// Places of the contract: lengths 0.01 mm, gradients 1e-7, probabilities 1e-4; other numbers 6 significant
// figures.
constexpr int length_places = 5;
constexpr int gradient_places = 7;
constexpr int probability_places = 4;
constexpr int significant_figures = 6;

// v rounded to `places` decimals (0..10) by the rule above.
double rounded_to(double v, int places);
// v rounded to `figures` significant figures (1..15), as append_significant() writes it.
double rounded_to_figures(double v, int figures);

// Appends v with exactly `places` decimals.
void append_fixed(std::string& out, double v, int places);
// Appends v with at most `places` decimals, trailing zeros dropped: 1.5, 100, 0.
void append_trimmed(std::string& out, double v, int places);
// Appends v with at most `figures` significant figures (1..15), trailing zeros dropped; exponent form below
// 1e-10 is 0.
void append_significant(std::string& out, double v, int figures);

// What any number takes: 309 digits before the point, a sign, the point, ten decimals, an end.
constexpr std::size_t number_room = 322;
// The same as the two above, into a place with that much room; the place after what was written.
char* write_trimmed(char* at, double v, int places);
char* write_significant(char* at, double v, int figures);

std::string fixed(double v, int places);
std::string trimmed(double v, int places);
std::string significant(double v, int figures);

}  // namespace fallwright
