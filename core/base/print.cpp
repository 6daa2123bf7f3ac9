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

void append_units(std::string& out, bool negative, std::int64_t count, int places, bool trim) {
    constexpr std::size_t zeros =
        fine_places + 2;  // before the digits: what a small number needs, and a sign
    std::array<char, zeros + 20> text;
    std::fill_n(text.begin(), zeros, '0');
    char* const digits = text.data() + zeros;
    char* end = std::to_chars(digits, text.data() + text.size() - 1, count).ptr;
    for (; trim && places > 0 && *(end - 1) == '0'; --places) --end;
    char* first = std::min(digits, end - places - 1);
    if (places > 0) {
        std::copy_backward(end - places, end, end + 1);
        *(end++ - places) = '.';
    }
    if (negative && count != 0) *--first = '-';
    out.append(first, end);
}

// Beyond 9e8 a double has no tenths of a micrometre left: the C library's rounding serves.
void append_large(std::string& out, double v, int places) {
    std::array<char, 512> text{};
    std::snprintf(text.data(), text.size(), "%.*f", places, v);
    out += text.data();
}

void append_places(std::string& out, double v, int places, bool trim) {
    assert(places >= 0 && places <= fine_places);
    if (!std::isfinite(v)) {
        out += "null";
    } else if (!fits(v)) {
        append_large(out, v, trim ? 0 : places);
    } else {
        append_units(out, v < 0, units(v, places), places, trim);
    }
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

void append_fixed(std::string& out, double v, int places) {
    append_places(out, v, places, false);
}

void append_trimmed(std::string& out, double v, int places) {
    append_places(out, v, places, true);
}

void append_significant(std::string& out, double v, int figures) {
    assert(figures >= 1 && figures <= 15);
    if (!std::isfinite(v) || !fits(v)) {
        append_trimmed(out, v, 0);
        return;
    }
    const auto [count, places] = significant_units(v, figures);
    append_units(out, v < 0, count, places, true);
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
