#include "ground/predicates.h"

#include <algorithm>
#include <cmath>

namespace fallwright::ground {

namespace {

__extension__ using Wide = __int128;

// Rounding of the three products, of their factors and of their sum is below 6 units of 2^-53 of the sum of
// their magnitudes.
constexpr double rounding_share = 0x1p-50;

// What stands on the paraboloid over a difference, and the area of two differences.
struct Term {
    std::int64_t lift, area;
};

int sign(auto value) {
    return value > 0 ? 1 : value < 0 ? -1 : 0;
}

int exact_sign(const Term& a, const Term& b, const Term& c) {
    const Wide det = Wide{a.lift} * a.area + Wide{b.lift} * b.area + Wide{c.lift} * c.area;
    return sign(det);
}

int sign_of(const Term& a, const Term& b, const Term& c) {
    const double of_a = static_cast<double>(a.lift) * static_cast<double>(a.area);
    const double of_b = static_cast<double>(b.lift) * static_cast<double>(b.area);
    const double of_c = static_cast<double>(c.lift) * static_cast<double>(c.area);
    const double det = of_a + of_b + of_c;
    const double doubt = (std::fabs(of_a) + std::fabs(of_b) + std::fabs(of_c)) * rounding_share;
    if (det > doubt) return 1;
    if (det < -doubt) return -1;
    return exact_sign(a, b, c);
}

}  // namespace

int circle_sign(Place a, Place b, Place c, Place d) {
    const std::int64_t ae = std::int64_t{a.e} - d.e, an = std::int64_t{a.n} - d.n;
    const std::int64_t be = std::int64_t{b.e} - d.e, bn = std::int64_t{b.n} - d.n;
    const std::int64_t ce = std::int64_t{c.e} - d.e, cn = std::int64_t{c.n} - d.n;
    return sign_of({ae * ae + an * an, be * cn - bn * ce}, {be * be + bn * bn, ce * an - cn * ae},
                   {ce * ce + cn * cn, ae * bn - an * be});
}

bool in_circle(Place a, Place b, Place c, Place d) {
    const int found = circle_sign(a, b, c, d);
    if (found != 0) return found > 0;
    const Place across = std::min(c, d, before), along = std::min(a, b, before);
    return before(across, along);
}

}  // namespace fallwright::ground
