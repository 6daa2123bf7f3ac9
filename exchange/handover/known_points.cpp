#include "exchange/handover/known_points.h"

#include <cmath>

#include "where/where.h"

namespace fallwright::handover {

KnownPoints::KnownPoints(const Book* book) {
    if (book == nullptr) return;
    constexpr double any_sight = 30;  // plays no part in the places of points
    const Where where = locate(*book, any_sight);
    const auto note = [&](NameId name) -> Known& {
        Known& known = points_[book->name(name)];
        if (name < where.points.size() && where.points[name].known) {
            const fallwright::Spot& spot = where.points[name];
            known.placed = true;
            known.on_grid = spot.frame == 0;
            known.e = spot.e;
            known.n = spot.n;
        }
        return known;
    };
    for (const Reading& reading : book->readings) note(reading.point);
    for (const PlaceEntry& place : book->places) note(place.point);
    for (const Step& step : book->steps) {
        note(step.from);
        note(step.to);
    }
    for (const Benchmark& benchmark : book->benchmarks)
        note(benchmark.point).level = benchmark.level.metres();
}

Said KnownPoints::place(const Point& point) const {
    const auto found = points_.find(point.name);
    if (found == points_.end() || !found->second.placed) return Said::Nothing;
    const Known& known = found->second;
    const bool same = known.on_grid && std::fabs(known.e - point.e) < same_length &&
                      std::fabs(known.n - point.n) < same_length;
    return same ? Said::Same : Said::Other;
}

Said KnownPoints::level(const Point& point) const {
    const auto found = points_.find(point.name);
    if (found == points_.end() || std::isnan(found->second.level)) return Said::Nothing;
    return std::fabs(found->second.level - point.level) < same_length ? Said::Same : Said::Other;
}

}  // namespace fallwright::handover
