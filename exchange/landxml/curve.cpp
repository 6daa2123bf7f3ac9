#include "exchange/landxml/curve.h"

#include <cmath>

namespace fallwright::landxml {

namespace {

constexpr double pi = 3.14159265358979323846;

double distance(const EastNorth& a, const EastNorth& b) {
    const double de = a.e - b.e, dn = a.n - b.n;
    return std::sqrt(de * de + dn * dn);
}

// Length of n chords over an angle, interior corners at radius + more.
double length_of(double radius, double more, double angle, int n) {
    const double part = angle / n;
    const double outer = radius + more;
    const double inside = 2 * outer * std::sin(part / 2);
    const double across = radius * radius + outer * outer - 2 * radius * outer * std::cos(part);
    return (n - 2) * inside + 2 * std::sqrt(across);
}

}  // namespace

std::vector<EastNorth> chords_of(const Curve& curve, double chord) {
    constexpr double same = 0.001;
    constexpr int most = 20000, halvings = 60;
    const double radius = distance(curve.start, curve.center);
    if (std::fabs(radius - distance(curve.end, curve.center)) > same || radius < same) return {};
    const double from = std::atan2(curve.start.n - curve.center.n, curve.start.e - curve.center.e);
    double angle = std::atan2(curve.end.n - curve.center.n, curve.end.e - curve.center.e) - from;
    if (curve.clockwise) angle = -angle;
    while (angle <= 0) angle += 2 * pi;
    // Sagitta of a chord over the angle: R part^2 / 8. Less of it is left on either side.
    const double part = std::sqrt(8 * chord / radius);
    const double wanted = std::ceil(angle / part);
    if (wanted > most) return {};
    const int n = std::max(2, static_cast<int>(wanted));
    double low = 0, high = radius * (angle / n) * (angle / n) / 8;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (length_of(radius, middle, angle, n) < radius * angle ? low : high) = middle;
    }
    std::vector<EastNorth> corners;
    for (int i = 1; i < n; ++i) {
        const double at = from + (curve.clockwise ? -1 : 1) * angle * i / n;
        corners.push_back(
            {curve.center.e + (radius + low) * std::cos(at), curve.center.n + (radius + low) * std::sin(at)});
    }
    corners.push_back(curve.end);
    return corners;
}

}  // namespace fallwright::landxml
