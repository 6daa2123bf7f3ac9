#include "drain/section.h"

#include <cassert>
#include <cmath>

#include "quantity/angle.h"

namespace fallwright::drain {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double degrees_per_radian = 180 / pi;

// x - sin x, without the loss of bits that the difference has where x is small.
double less_sine(double x, double sine) {
    if (x > 1) return x - sine;
    const double square = x * x;
    double bracket = 1;
    for (int n = 18; n >= 4; n -= 2) bracket = 1 - bracket * square / (n * (n + 1));
    return x * square / 6 * bracket;
}

// half: sine and cosine of half the angle.
Wetted of(double bore, double angle, const SinCos& half) {
    Wetted wet;
    wet.angle = angle;
    wet.area = bore * bore / 8 * less_sine(angle, 2 * half.sin * half.cos);
    wet.perimeter = bore * angle / 2;
    wet.radius = angle > 0 ? wet.area / wet.perimeter : 0;
    wet.top = bore * half.sin;
    return wet;
}

}  // namespace

Wetted wetted(double bore, double depth) {
    assert(bore > 0 && std::isfinite(depth));
    if (depth <= 0) return {};
    if (depth >= bore) return of(bore, 2 * pi, {0, -1});
    const double filled = depth / bore;
    const double air = (bore - depth) / bore;
    const double angle = 4 * atan_degrees(std::sqrt(filled / air)) / degrees_per_radian;
    return of(bore, angle, {2 * std::sqrt(filled * air), air - filled});
}

Wetted wetted_at_angle(double bore, double angle) {
    assert(bore > 0 && angle >= 0 && angle <= 2 * pi);
    if (angle >= 2 * pi) return of(bore, 2 * pi, {0, -1});
    return of(bore, angle, sincos_degrees(angle / 2 * degrees_per_radian));
}

double depth_at_angle(double bore, double angle) {
    const double sine = sincos_degrees(angle / 4 * degrees_per_radian).sin;
    return bore * sine * sine;
}

}  // namespace fallwright::drain
