#include "ground/grid_levels.h"

#include <algorithm>
#include <cmath>

#include "dial/plane.h"
#include "ground/level_under.h"

namespace fallwright::ground {

namespace {

constexpr double on_edge = 1e-6;  // of the interval

// The rectangle along the heading that holds all corners of the surface.
Box reach_of(const Sheet& sheet, const Heading& heading) {
    Box reach = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (const std::array<std::int32_t, 3>& triangle : sheet.triangles) {
        for (const std::int32_t corner : triangle) {
            const EastNorth& at = sheet.at[static_cast<std::size_t>(corner)];
            const Axes way = in_axes({at.e + sheet.origin.e, at.n + sheet.origin.n}, heading);
            reach.take_in({way.cross, way.main, way.cross, way.main});
        }
    }
    return reach;
}

struct Steps {
    std::int64_t first = 0, last = -1;
    double count() const { return std::max(0.0, static_cast<double>(last) - static_cast<double>(first) + 1); }
};

// Whole multiples of the interval between two figures, the ends included.
Steps steps(double from, double to, double every) {
    return {static_cast<std::int64_t>(std::ceil(from / every - on_edge)),
            static_cast<std::int64_t>(std::floor(to / every + on_edge))};
}

}  // namespace

GridLevels grid_levels(const ReadySurface& surface, double every, const Model& model) {
    GridLevels found;
    const Heading& heading = surface.spots.heading;
    const Box reach = reach_of(surface.sheet, heading);
    const Steps rows = steps(reach.south, reach.north, every), columns = steps(reach.west, reach.east, every);
    found.too_many = rows.count() * columns.count() > static_cast<double>(most_grid_levels);
    if (found.too_many) return found;
    const LevelUnder under(surface);
    for (std::int64_t row = rows.first; row <= rows.last; ++row) {
        for (std::int64_t column = columns.first; column <= columns.last; ++column) {
            const Axes way = {static_cast<double>(row) * every, static_cast<double>(column) * every};
            const Slope place = in_field(way, heading);
            const EastNorth at = {place.east, place.north};
            const std::optional<LevelUnder::Found> level = under.at(at);
            if (!level || !inside_outline(*surface.entry, at)) continue;
            GridLevel corner = {at.e, at.n, level->level, NAN};
            if (found.levels.size() < most_with_sd)
                corner.sd = std::sqrt(std::max(0.0, model.variance_of(level->terms)));
            found.levels.push_back(corner);
        }
    }
    return found;
}

}  // namespace fallwright::ground
