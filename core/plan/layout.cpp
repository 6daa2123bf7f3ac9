#include "plan/layout.h"

#include <algorithm>
#include <cmath>

#include "quantity/angle.h"

namespace fallwright {

double Stand::axis() const {
    constexpr double half_round = 180;
    if (!turned) return bearing.value;
    return bearing.value + (bearing.value < half_round ? half_round : -half_round);
}

double Layout::effort() const {
    double sum = reading_effort * static_cast<double>(sights.size());
    for (std::size_t i = 0; i < stands.size(); ++i) {
        const bool used = std::any_of(sights.begin(), sights.end(),
                                      [i](const PlannedSight& sight) { return sight.stand == i; });
        if (used && !stands[i].fixed) sum += setup_effort;
    }
    return sum;
}

Spot Layout::spot_of(const PlannedSight& sight) const {
    return is_change_point(sight.as.point) ? change_point_spot(sight.as.point) : sight.spot;
}

Spot Layout::change_point_spot(NameId point) const {
    Spot sum;
    double count = 0;
    for (const PlannedSight& sight : sights) {
        const Spot& spot = stands[sight.stand].spot;
        if (sight.as.point != point || !spot.known) continue;
        sum = {true, spot.frame, sum.e + spot.e, sum.n + spot.n};
        ++count;
    }
    return count > 0 ? Spot{true, sum.frame, sum.e / count, sum.n / count} : Spot{};
}

bool Layout::reads(std::size_t stand, NameId point) const {
    return std::any_of(sights.begin(), sights.end(), [&](const PlannedSight& sight) {
        return sight.stand == stand && sight.as.point == point;
    });
}

bool Layout::joins(NameId point) const {
    std::size_t first = SIZE_MAX;
    for (const PlannedSight& sight : sights) {
        if (sight.as.point != point) continue;
        if (first == SIZE_MAX) first = sight.stand;
        if (sight.stand != first) return true;
    }
    return false;
}

bool Layout::is_change_point(NameId point) const {
    return std::find(change_points.begin(), change_points.end(), point) != change_points.end();
}

Spot midway(const Spot& a, const Spot& b) {
    if (!a.known || !b.known || a.frame != b.frame) return {};
    return {true, a.frame, (a.e + b.e) / 2, (a.n + b.n) / 2};
}

double distance_between(const Spot& a, const Spot& b) {
    if (!a.known || !b.known || a.frame != b.frame) return NAN;
    return std::sqrt((a.e - b.e) * (a.e - b.e) + (a.n - b.n) * (a.n - b.n));
}

double bearing_of(const Heading& heading) {
    constexpr double half_round = 180;
    constexpr double quarter = 90;
    if (heading.n == 0) return heading.e < 0 ? half_round + quarter : quarter;
    const double angle = atan_degrees(heading.e / heading.n) + (heading.n < 0 ? half_round : 0);
    return angle < 0 ? angle + 2 * half_round : angle;
}

Position position_of(const Book& book, const Spot& spot) {
    Position at;
    if (!spot.known) return at;
    at.kind = spot.frame == 0 ? Position::Kind::Grid : Position::Kind::OnLine;
    at.e = spot.e;
    at.n = spot.n;
    if (spot.frame == 0) return at;
    // A frame of a line's own: easting is the offset, northing the chainage.
    at.line = book.lines[static_cast<std::size_t>(spot.frame - 1)].name;
    at.ch = spot.n;
    at.off = spot.e;
    return at;
}

}  // namespace fallwright
