#include "quantity/angle.h"

#include <array>
#include <cmath>

namespace fallwright {

namespace {

constexpr double radians_per_degree = 3.14159265358979323846 / 180.0;

// Series in x^2, highest power first: Horner's rule.
template <std::size_t size>
double series(const std::array<double, size>& coefficients, double square) {
    double sum = 0;
    for (const double coefficient : coefficients) sum = sum * square + coefficient;
    return sum;
}

// (-1)^k / (2k+1)!, k = 8 ... 1.
constexpr std::array<double, 8> sine_terms = {
    1.0 / 355687428096000.0, -1.0 / 1307674368000.0, 1.0 / 6227020800.0, -1.0 / 39916800.0,
    1.0 / 362880.0,          -1.0 / 5040.0,          1.0 / 120.0,        -1.0 / 6.0};
// (-1)^k / (2k)!, k = 8 ... 2.
constexpr std::array<double, 7> cosine_terms = {
    1.0 / 20922789888000.0, -1.0 / 87178291200.0, 1.0 / 479001600.0, -1.0 / 3628800.0,
    1.0 / 40320.0,          -1.0 / 720.0,         1.0 / 24.0};

// |degrees| <= 45.
SinCos small(double degrees) {
    const double x = degrees * radians_per_degree;
    const double square = x * x;
    const double half = 0.5 * square;
    // 1 - half loses bits that the last bracket gives back.
    const double head = 1.0 - half;
    const double lost = (1.0 - head) - half;
    return {x + x * square * series(sine_terms, square),
            head + (lost + square * square * series(cosine_terms, square))};
}

// |ratio| <= 1, radians. A rough rational start, then two steps a += (t - tan a) / (1 + t tan a): the error
// goes from 5e-3 to its third part cubed, 4e-8, then below the last bit.
double small_atan_degrees(double ratio) {
    double degrees = ratio / (1.0 + 0.28 * ratio * ratio) / radians_per_degree;
    for (int step = 0; step < 2; ++step) {
        const SinCos at = small(degrees);
        degrees += (ratio * at.cos - at.sin) / (at.cos + ratio * at.sin) / radians_per_degree;
    }
    return degrees;
}

}  // namespace

SinCos sincos_degrees(double degrees) {
    if (!std::isfinite(degrees)) return {std::nan(""), std::nan("")};
    // + 0.0 turns a -0 into 0.
    const double turn = std::fmod(degrees, 360.0) + 0.0;
    const double quarters = std::floor(turn / 90.0 + 0.5);
    const SinCos rest = small(turn - 90.0 * quarters);
    switch (static_cast<int>(quarters) & 3) {
        case 1:
            return {rest.cos, 0.0 - rest.sin};
        case 2:
            return {0.0 - rest.sin, 0.0 - rest.cos};
        case 3:
            return {0.0 - rest.cos, rest.sin};
        default:
            return rest;
    }
}

double atan_degrees(double ratio) {
    if (std::isnan(ratio)) return ratio;
    if (ratio > 1) return 90.0 - small_atan_degrees(1.0 / ratio);
    if (ratio < -1) return -90.0 - small_atan_degrees(1.0 / ratio);
    return small_atan_degrees(ratio);
}

}  // namespace fallwright
