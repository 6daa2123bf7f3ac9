#include "base/print.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace fallwright {

namespace {

constexpr int fine_places = 10;
constexpr std::array<std::int64_t, 19> powers = {1,
                                                 10,
                                                 100,
                                                 1000,
                                                 10000,
                                                 100000,
                                                 1000000,
                                                 10000000,
                                                 100000000,
                                                 1000000000,
                                                 10000000000,
                                                 100000000000,
                                                 1000000000000,
                                                 10000000000000,
                                                 100000000000000,
                                                 1000000000000000,
                                                 10000000000000000,
                                                 100000000000000000,
                                                 1000000000000000000};

// |v| in units of 1e-10; only where it fits, see fits().
std::int64_t fine_units(double v) {
    return std::llround(std::fabs(v) * 1e10);
}

bool fits(double v) {
    return std::fabs(v) < 9e8;
}

// |v| in units of 10^-places after both roundings.
std::int64_t units(double v, int places) {
    const std::int64_t step = powers[static_cast<std::size_t>(fine_places - places)];
    return (fine_units(v) + step / 2) / step;
}

// A number as a count of 10^-places.
struct Counted {
    std::int64_t count;
    int places;
};

// |v| to its first `figures` digits; digits before the point stay as zeros.
Counted significant_units(double v, int figures) {
    const std::int64_t count = fine_units(v);
    int digits = 1;
    while (digits < 19 && count >= powers[static_cast<std::size_t>(digits)]) ++digits;
    if (digits <= figures) return {count, fine_places};
    const int dropped = digits - figures, decimals = std::min(dropped, fine_places);
    const std::int64_t step = powers[static_cast<std::size_t>(dropped)];
    return {(count + step / 2) / step * powers[static_cast<std::size_t>(dropped - decimals)],
            fine_places - decimals};
}

char* write_units(char* at, bool negative, std::int64_t count, int places, bool trim) {
    if (negative && count != 0) *at++ = '-';
    const std::int64_t one = powers[static_cast<std::size_t>(places)];
    at = std::to_chars(at, at + number_room, count / one).ptr;
    std::int64_t rest = count % one;
    if (places == 0 || (trim && rest == 0)) return at;
    *at = '.';
    for (int i = places; i > 0; --i, rest /= 10) at[i] = static_cast<char>('0' + rest % 10);
    at += places + 1;
    while (trim && *(at - 1) == '0') --at;
    return at;
}

char* write_places(char* at, double v, int places, bool trim) {
    assert(places >= 0 && places <= fine_places);
    if (!std::isfinite(v)) return std::copy_n("null", 4, at);
    if (fits(v)) return write_units(at, v < 0, units(v, places), places, trim);
    // Beyond 9e8 a double has no tenths of a micrometre left: the C library's rounding serves.
    return at + std::snprintf(at, number_room, "%.*f", trim ? 0 : places, v);
}

}  // namespace

double rounded_to(double v, int places) {
    assert(places >= 0 && places <= fine_places);
    if (!std::isfinite(v) || !fits(v)) return v;
    const double magnitude =
        static_cast<double>(units(v, places)) / static_cast<double>(powers[static_cast<std::size_t>(places)]);
    return v < 0 && magnitude > 0 ? -magnitude : magnitude;
}

double rounded_to_figures(double v, int figures) {
    assert(figures >= 1 && figures <= 15);
    if (!std::isfinite(v) || !fits(v)) return v;
    const auto [count, places] = significant_units(v, figures);
    const double magnitude =
        static_cast<double>(count * powers[static_cast<std::size_t>(fine_places - places)]) / 1e10;
    return v < 0 && magnitude > 0 ? -magnitude : magnitude;
}

char* write_trimmed(char* at, double v, int places) {
    return write_places(at, v, places, true);
}

char* write_significant(char* at, double v, int figures) {
    assert(figures >= 1 && figures <= 15);
    if (!std::isfinite(v) || !fits(v)) return write_trimmed(at, v, 0);
    const auto [count, places] = significant_units(v, figures);
    return write_units(at, v < 0, count, places, true);
}

void append_fixed(std::string& out, double v, int places) {
    std::array<char, number_room> text;
    out.append(text.data(), write_places(text.data(), v, places, false));
}

void append_trimmed(std::string& out, double v, int places) {
    std::array<char, number_room> text;
    out.append(text.data(), write_trimmed(text.data(), v, places));
}

void append_significant(std::string& out, double v, int figures) {
    std::array<char, number_room> text;
    out.append(text.data(), write_significant(text.data(), v, figures));
}

std::string fixed(double v, int places) {
    std::string out;
    append_fixed(out, v, places);
    return out;
}

std::string trimmed(double v, int places) {
    std::string out;
    append_trimmed(out, v, places);
    return out;
}

std::string significant(double v, int figures) {
    std::string out;
    append_significant(out, v, figures);
    return out;
}

}  // namespace fallwright
