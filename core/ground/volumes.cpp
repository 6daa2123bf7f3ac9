#include "ground/volumes.h"

#include <algorithm>
#include <cmath>

#include "ground/level_under.h"
#include "quantity/angle.h"

namespace fallwright::ground {

namespace {

// A variance a spot: more of them cost more than anybody reads.
constexpr std::size_t most_spots_with_sd = 2000;

double sd_of(const Model& model, const std::vector<PointTerm>& sum) {
    const double variance = model.variance_of(sum);
    return std::isnan(variance) ? NAN : std::sqrt(std::max(0.0, variance));
}

// Weights of the corners of one sheet as terms of points, appended.
void add_terms(const ReadySurface& surface, std::vector<double> weights, double sign,
               std::vector<PointTerm>& terms) {
    const std::vector<double> spots = surface.sheet.on_spots(std::move(weights));
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const auto spot = static_cast<std::size_t>(surface.sheet.spot[i]);
        if (spots[i] != 0) terms.push_back({surface.spots.spots[spot].point, sign * spots[i]});
    }
}

class Reckoner {
  public:
    Reckoner(const ReadySurface& surface, const ReadySurface* other, const SurfaceTarget& target,
             const Model& model)
        : surface_(surface), other_(other), entry_(*surface.entry), model_(model) {
        found_.target = &target;
    }

    SurfaceVolume run(const Prisms& prisms) {
        found_.work = earthwork(prisms);
        const EarthworkWeights weights = earthwork_weights(prisms);
        const double placed = 1 - entry_.shrinkage;
        found_.cut_sd = sd_with(weights, 1, 0);
        found_.fill_sd = sd_with(weights, 0, 1);
        found_.net_sd = sd_with(weights, 1, -1);
        found_.loose = found_.work.cut * (1 + entry_.bulking);
        found_.surplus = found_.work.cut - found_.work.fill / placed;
        found_.surplus_sd = sd_with(weights, 1, -1 / placed);
        for (const Prism& prism : prisms.prisms) found_.area += prism.area;
        found_.strip = entry_.strip * found_.area;
        const Balance level = balance(prisms, placed);
        found_.raised = level.raised;
        found_.balanced = level.work;
        found_.raised_sd = std::isnan(level.raised) ? NAN : sd_of(model_, terms_of(level.weights));
        return std::move(found_);
    }

  private:
    double sd_with(const EarthworkWeights& weights, double of_cut, double of_fill) const {
        std::vector<double> sum(weights.cut.size());
        for (std::size_t i = 0; i < sum.size(); ++i)
            sum[i] = of_cut * weights.cut[i] + of_fill * weights.fill[i];
        return sd_of(model_, terms_of(sum));
    }

    // Bases: corners of the surface, then, with their heights' sign turned, those of the other.
    std::vector<PointTerm> terms_of(const std::vector<double>& weights) const {
        std::vector<PointTerm> terms;
        const auto own = static_cast<std::ptrdiff_t>(surface_.sheet.at.size());
        add_terms(surface_, {weights.begin(), weights.begin() + own}, 1, terms);
        if (other_ != nullptr) add_terms(*other_, {weights.begin() + own, weights.end()}, -1, terms);
        return terms;
    }

    const ReadySurface& surface_;
    const ReadySurface* other_;
    const SurfaceEntry& entry_;
    const Model& model_;
    SurfaceVolume found_;
};

EastNorth place_of(const BookSpot& spot) {
    return {spot.e, spot.n};
}

void dig_to_other(const ReadySurface& surface, const ReadySurface& other, double by, const Model& model,
                  std::vector<SpotDig>& digs) {
    const LevelUnder under(other);
    const bool with_sd = surface.inner.size() <= most_spots_with_sd;
    for (const BookSpot& spot : surface.inner) {
        SpotDig dig = {NAN, NAN};
        if (const std::optional<LevelUnder::Found> found = under.at(place_of(spot))) {
            dig.dig = spot.level - surface.entry->strip - (found->level - by);
            std::vector<PointTerm> terms = {{spot.point, 1}};
            for (const PointTerm& term : found->terms) terms.push_back({term.point, -term.coefficient});
            if (with_sd) dig.sd = sd_of(model, terms);
        }
        digs.push_back(dig);
    }
}

}  // namespace

double target_level(const SurfaceTarget& target, const EastNorth& at, const EastNorth& place) {
    const double level = target.level.value - target.by;
    if (!target.sloped) return level;
    const SinCos unit = sincos_degrees(target.bearing);
    const double e = place.e - at.e, n = place.n - at.n;
    return level + target.main * (e * unit.sin + n * unit.cos) + target.cross * (e * unit.cos - n * unit.sin);
}

SurfaceVolume volume_to_plane(const ReadySurface& surface, const SurfaceTarget& target, const EastNorth& at,
                              const Model& model) {
    Prisms prisms = prisms_under(surface.sheet);
    const EastNorth& origin = surface.sheet.origin;
    for (std::size_t i = 0; i < prisms.bases; ++i) {
        const EastNorth& corner = surface.sheet.at[i];
        const EastNorth place = {corner.e + origin.e, corner.n + origin.n};
        prisms.height[i] -= target_level(target, at, place) + surface.entry->strip;
    }
    prisms.settle();
    SurfaceVolume found = Reckoner(surface, nullptr, target, model).run(prisms);
    for (const BookSpot& spot : surface.inner) {
        const double level = target_level(target, at, place_of(spot)) + surface.entry->strip;
        found.digs.push_back({spot.level - level, model.levels[static_cast<std::size_t>(spot.point)].sd});
    }
    return found;
}

SurfaceVolume volume_between(const ReadySurface& surface, const SurfaceTarget& target,
                             const ReadySurface& other, const Model& model) {
    Prisms prisms = prisms_between(surface.sheet, other.sheet);
    for (std::size_t i = 0; i < surface.sheet.at.size(); ++i)
        prisms.height[i] += target.by - surface.entry->strip;
    prisms.settle();
    SurfaceVolume found = Reckoner(surface, &other, target, model).run(prisms);
    dig_to_other(surface, other, target.by, model, found.digs);
    return found;
}

}  // namespace fallwright::ground
