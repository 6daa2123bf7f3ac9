#include "ground/level_under.h"

namespace fallwright::ground {

namespace {

constexpr double rounding = 1e-9;  // of a share that ought to be 0

std::vector<Box> boxes_of(const Sheet& sheet) {
    std::vector<Box> all;
    all.reserve(sheet.triangles.size());
    for (const std::array<std::int32_t, 3>& triangle : sheet.triangles) {
        const auto point = [&](std::size_t k) {
            const EastNorth& at = sheet.at[static_cast<std::size_t>(triangle[k])];
            return Box{at.e, at.n, at.e, at.n};
        };
        Box box = point(0);
        box.take_in(point(1));
        box.take_in(point(2));
        all.push_back(box);
    }
    return all;
}

}  // namespace

LevelUnder::LevelUnder(const ReadySurface& surface) : surface_(surface), tree_(boxes_of(surface.sheet)) {}

std::optional<LevelUnder::Found> LevelUnder::at(const EastNorth& place) const {
    const Sheet& sheet = surface_.sheet;
    const EastNorth local = {place.e - sheet.origin.e, place.n - sheet.origin.n};
    std::size_t triangle = sheet.triangles.size();
    std::array<double, 3> share{};
    tree_.meeting({local.e, local.n, local.e, local.n}, [&](std::size_t i) {
        const std::array<double, 3> here = shares_at(sheet, i, local);
        const bool inside = here[0] >= -rounding && here[1] >= -rounding && here[2] >= -rounding;
        if (!inside || i > triangle) return;
        triangle = i;
        share = here;
    });
    if (triangle == sheet.triangles.size()) return std::nullopt;
    Found found;
    for (std::size_t k = 0; k < 3; ++k) {
        const std::int32_t corner = sheet.triangles[triangle][k];
        found.level += share[k] * sheet.level[static_cast<std::size_t>(corner)];
        add_corner(corner, share[k], found.terms);
    }
    return found;
}

void LevelUnder::add_corner(std::int32_t corner, double share, std::vector<PointTerm>& terms) const {
    const Sheet& sheet = surface_.sheet;
    const auto at = static_cast<std::size_t>(corner);
    if (at < sheet.spots()) {
        const auto spot = static_cast<std::size_t>(sheet.spot[at]);
        terms.push_back({surface_.spots.spots[spot].point, share});
        return;
    }
    const Blend& blend = sheet.blends[at - sheet.spots()];
    for (std::size_t k = 0; k < static_cast<std::size_t>(blend.count); ++k)
        add_corner(blend.of[k], share * blend.share[k], terms);
}

}  // namespace fallwright::ground
