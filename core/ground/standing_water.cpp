#include "ground/standing_water.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <utility>

#include "base/print.h"
#include "verdict/within.h"

namespace fallwright::ground {

namespace {

using Corner = std::int32_t;
constexpr Corner none = -1;

std::size_t at(std::int32_t index) {
    return static_cast<std::size_t>(index);
}

// The corners beside each corner, and which lie on the edge of the surface.
class Ways {
  public:
    explicit Ways(const Sheet& sheet) : start_(sheet.at.size() + 1), edge_(sheet.at.size()) {
        for (const auto& triangle : sheet.triangles) {
            for (const Corner corner : triangle) start_[at(corner) + 1] += 2;
        }
        for (std::size_t i = 1; i < start_.size(); ++i) start_[i] += start_[i - 1];
        beside_.resize(start_.back());
        std::vector<std::size_t> next(start_.begin(), start_.end() - 1);
        for (const auto& triangle : sheet.triangles) {
            for (std::size_t k = 0; k < 3; ++k) {
                beside_[next[at(triangle[k])]++] = triangle[(k + 1) % 3];
                beside_[next[at(triangle[k])]++] = triangle[(k + 2) % 3];
            }
        }
        for (std::size_t i = 0; i + 1 < start_.size(); ++i) {
            const auto first = beside_.begin() + static_cast<std::ptrdiff_t>(start_[i]);
            const auto last = beside_.begin() + static_cast<std::ptrdiff_t>(start_[i + 1]);
            std::sort(first, last);
            // A side inside the surface belongs to two triangles, so its far end stands here twice.
            for (auto each = first; each != last; ++each) {
                const bool twice =
                    (each + 1 != last && *each == *(each + 1)) || (each != first && *each == *(each - 1));
                if (!twice) edge_[i] = true;
            }
        }
    }

    bool on_edge(Corner corner) const { return edge_[at(corner)]; }
    bool used(Corner corner) const { return start_[at(corner)] < start_[at(corner) + 1]; }
    template <class Each>
    void beside(Corner corner, Each each) const {
        for (std::size_t i = start_[at(corner)]; i < start_[at(corner) + 1]; ++i) each(beside_[i]);
    }

  private:
    std::vector<std::size_t> start_;
    std::vector<Corner> beside_;
    std::vector<bool> edge_;
};

class WaterFinder {
  public:
    WaterFinder(const ReadySurface& surface, const Model& model)
        : surface_(surface),
          sheet_(surface.sheet),
          model_(model),
          ways_(sheet_),
          prisms_(prisms_under(sheet_)) {}

    StandingWater run() {
        flood();
        find_ponds();
        measure();
        list();
        return std::move(found_);
    }

  private:
    double level(Corner corner) const { return sheet_.level[at(corner)]; }

    void flood() {
        const std::size_t n = sheet_.at.size();
        water_.assign(n, std::numeric_limits<double>::infinity());
        sill_.assign(n, none);
        using Front = std::pair<double, Corner>;
        std::priority_queue<Front, std::vector<Front>, std::greater<>> front;
        const auto reach = [&](Corner corner, double surface, Corner sill) {
            const bool dry = level(corner) >= surface;
            const double stands = dry ? level(corner) : surface;
            if (!(stands < water_[at(corner)])) return;
            water_[at(corner)] = stands;
            sill_[at(corner)] = dry ? corner : sill;
            front.emplace(stands, corner);
        };
        for (const Corner corner : ways_out()) reach(corner, level(corner), corner);
        found_.drains = !front.empty();
        while (!front.empty()) {
            const auto [surface, corner] = front.top();
            front.pop();
            if (surface > water_[at(corner)]) continue;
            ways_.beside(corner, [&, surface = surface, corner = corner](Corner next) {
                reach(next, surface, sill_[at(corner)]);
            });
        }
    }

    std::vector<Corner> ways_out() const {
        std::vector<Corner> out;
        std::vector<bool> is_outlet(surface_.spots.spots.size());
        for (const std::int32_t spot : surface_.spots.outlets) is_outlet[at(spot)] = true;
        for (std::size_t i = 0; i < sheet_.at.size(); ++i) {
            const auto corner = static_cast<Corner>(i);
            if (!ways_.used(corner)) continue;
            const bool open = surface_.entry->edge == SurfaceEdge::Open && ways_.on_edge(corner);
            const bool outlet = i < sheet_.spots() && is_outlet[at(sheet_.spot[i])];
            if (open || outlet) out.push_back(corner);
        }
        return out;
    }

    bool wet(Corner corner) const {
        return std::isfinite(water_[at(corner)]) && water_[at(corner)] > level(corner);
    }

    // Corners under one water hang together along sides of triangles.
    void find_ponds() {
        pond_of_.assign(sheet_.at.size(), none);
        for (std::size_t i = 0; i < sheet_.at.size(); ++i) {
            const auto corner = static_cast<Corner>(i);
            if (!wet(corner) || pond_of_[i] != none) continue;
            const auto pond = static_cast<std::int32_t>(low_.size());
            low_.push_back(corner);
            std::vector<Corner> todo = {corner};
            pond_of_[i] = pond;
            while (!todo.empty()) {
                const Corner here = todo.back();
                todo.pop_back();
                if (level(here) < level(low_.back()) ||
                    (level(here) == level(low_.back()) && here < low_.back()))
                    low_.back() = here;
                ways_.beside(here, [&](Corner next) {
                    if (!wet(next) || pond_of_[at(next)] != none) return;
                    pond_of_[at(next)] = pond;
                    todo.push_back(next);
                });
            }
        }
    }

    std::int32_t pond_over(const std::array<Corner, 3>& triangle) const {
        for (const Corner corner : triangle) {
            if (pond_of_[at(corner)] != none) return pond_of_[at(corner)];
        }
        return none;
    }

    // What stands on a prism, and how that grows as its corners sink.
    AboveZero standing_on(const Prism& prism, double surface, std::array<double, 3>& depth) const {
        for (std::size_t k = 0; k < 3; ++k) depth[k] = surface - prisms_.height[at(prism.corner[k])];
        return above_zero(depth);
    }

    template <class Each>
    void over_prisms(Each each) const {
        std::size_t prism = 0;
        for (std::size_t i = 0; i < sheet_.triangles.size(); ++i) {
            const std::size_t parts =
                i < sheet_.whole() ? 1
                                   : std::max<std::size_t>(sheet_.parts[i - sheet_.whole()].size(), 2) - 2;
            const std::int32_t pond = pond_over(sheet_.triangles[i]);
            for (std::size_t k = 0; k < parts; ++k, ++prism) {
                if (pond != none) each(prisms_.prisms[prism], pond);
            }
        }
    }

    void measure() {
        area_.assign(low_.size(), 0);
        volume_.assign(low_.size(), 0);
        over_prisms([&](const Prism& prism, std::int32_t pond) {
            std::array<double, 3> depth{};
            const AboveZero wet = standing_on(prism, water_[at(low_[at(pond)])], depth);
            area_[at(pond)] += prism.area * wet.area;
            for (std::size_t k = 0; k < 3; ++k) volume_[at(pond)] += prism.area * wet.moment[k] * depth[k];
        });
    }

    void list() {
        std::vector<std::int32_t> deepest;
        const auto depth = [this](std::int32_t pond) {
            const Corner low = low_[at(pond)];
            return water_[at(low)] - level(low);
        };
        for (std::size_t i = 0; i < low_.size(); ++i) {
            if (rounded_to(depth(static_cast<std::int32_t>(i)), length_places) >= least_pond)
                deepest.push_back(static_cast<std::int32_t>(i));
        }
        std::sort(deepest.begin(), deepest.end(), [&](std::int32_t a, std::int32_t b) {
            return depth(a) != depth(b) ? depth(a) > depth(b) : a < b;
        });
        found_.more = deepest.size() > deepest_listed ? deepest.size() - deepest_listed : 0;
        deepest.resize(deepest.size() - found_.more);
        const std::vector<std::vector<std::pair<Corner, double>>> weights = volume_weights(deepest);
        for (std::size_t i = 0; i < deepest.size(); ++i)
            found_.ponds.push_back(pond_at(deepest[i], weights[i]));
    }

    // Of the volumes of the ponds listed, in the levels of corners; the sill's comes by the area.
    std::vector<std::vector<std::pair<Corner, double>>> volume_weights(
        const std::vector<std::int32_t>& listed) const {
        std::vector<std::vector<std::pair<Corner, double>>> weights(listed.size());
        std::vector<std::int32_t> place(low_.size(), none);
        for (std::size_t i = 0; i < listed.size(); ++i) place[at(listed[i])] = static_cast<std::int32_t>(i);
        over_prisms([&](const Prism& prism, std::int32_t pond) {
            if (place[at(pond)] == none) return;
            std::array<double, 3> depth{};
            const AboveZero wet = standing_on(prism, water_[at(low_[at(pond)])], depth);
            for (std::size_t k = 0; k < 3; ++k)
                weights[at(place[at(pond)])].emplace_back(prism.corner[k], -prism.area * wet.moment[k]);
        });
        return weights;
    }

    SurfacePond pond_at(std::int32_t number, const std::vector<std::pair<Corner, double>>& weights) const {
        const Corner low = low_[at(number)];
        const Corner sill = sill_[at(low)];
        SurfacePond pond;
        pond.low = corner(low);
        pond.sill = corner(sill);
        pond.depth = water_[at(low)] - level(low);
        std::vector<PointTerm> deep;
        add_corner(sill, 1, deep);
        add_corner(low, -1, deep);
        pond.depth_sd = sd_of(deep);
        pond.probability = probability_within(pond.depth, pond.depth_sd, {0, Limits().above});
        pond.area = area_[at(number)];
        pond.volume = volume_[at(number)];
        std::vector<PointTerm> all;
        add_corner(sill, pond.area, all);
        for (const auto& [corner, weight] : weights) add_corner(corner, weight, all);
        pond.volume_sd = sd_of(all);
        return pond;
    }

    WaterCorner corner(Corner which) const {
        const EastNorth& place = sheet_.at[at(which)];
        const bool named = at(which) < sheet_.spots();
        return {named ? surface_.spots.spots[at(sheet_.spot[at(which)])].name : no_name,
                place.e + sheet_.origin.e, place.n + sheet_.origin.n, level(which)};
    }

    // Corners of prisms: spots, middles of cells, corners of outlines.
    void add_corner(Corner which, double weight, std::vector<PointTerm>& terms) const {
        if (at(which) < sheet_.spots()) {
            const auto spot = at(sheet_.spot[at(which)]);
            terms.push_back({surface_.spots.spots[spot].point, weight});
            return;
        }
        const Blend& blend = at(which) < sheet_.at.size() ? sheet_.blends[at(which) - sheet_.spots()]
                                                          : prisms_.blends[at(which) - prisms_.bases];
        for (std::size_t k = 0; k < at(blend.count); ++k)
            add_corner(blend.of[k], weight * blend.share[k], terms);
    }

    double sd_of(const std::vector<PointTerm>& terms) const {
        const double variance = model_.variance_of(terms);
        return std::isnan(variance) ? NAN : std::sqrt(std::max(0.0, variance));
    }

    const ReadySurface& surface_;
    const Sheet& sheet_;
    const Model& model_;
    Ways ways_;
    Prisms prisms_;
    std::vector<double> water_;  // level of the water over each corner
    std::vector<Corner> sill_;   // the corner that holds it there
    std::vector<std::int32_t> pond_of_;
    std::vector<Corner> low_;  // per pond
    std::vector<double> area_, volume_;
    StandingWater found_;
};

}  // namespace

StandingWater standing_water(const ReadySurface& surface, const Model& model) {
    return WaterFinder(surface, model).run();
}

}  // namespace fallwright::ground
