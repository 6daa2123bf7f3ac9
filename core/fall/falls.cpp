#include "fall/falls.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "design/flow.h"

namespace fallwright {

namespace {

FoundFall fall_between(const Station& from, const Station& to, Span span, double sign, const Model& model) {
    const auto level = [&](const Station& station) {
        return model.levels[static_cast<std::size_t>(station.point)].level;
    };
    const double length = to.ch - from.ch;
    const std::array<PointTerm, 2> sum = {{{to.point, 1}, {from.point, -1}}};
    return {from.ch,
            to.ch,
            from.what,
            span,
            sign * (level(to) - level(from)) / length,
            std::sqrt(model.variance_of(sum)) / length};
}

}  // namespace

std::vector<FoundFall> list_falls(const LineEntry& line, const LineFalls& found, const Model& model) {
    const LevelOf level_of = [&model](NameId name) {
        const std::int32_t point = model.points.at(name);
        return point < 0 ? NAN : model.levels[static_cast<std::size_t>(point)].level;
    };
    const double sign = runs_with_chainage(line, level_of) ? -1 : 1;
    std::vector<FoundFall> falls;
    for (const Fit& fit : found.fits) {
        std::vector<const Station*> stations;
        for (const Station& station : found.stations) {
            if (station.what == fit.what && !std::isnan(station.off_fit)) stations.push_back(&station);
        }
        std::sort(stations.begin(), stations.end(),
                  [](const Station* a, const Station* b) { return a->ch < b->ch; });
        for (std::size_t i = 1; i < stations.size(); ++i)
            falls.push_back(fall_between(*stations[i - 1], *stations[i], Span::Neighbour, sign, model));
        falls.push_back(fall_between(*stations.front(), *stations.back(), Span::Line, sign, model));
    }
    return falls;
}

}  // namespace fallwright
