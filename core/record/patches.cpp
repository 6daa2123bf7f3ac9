#include "record/patches.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <unordered_map>
#include <utility>

#include "base/stable_order.h"

namespace fallwright::record {

namespace {

using ground::EastNorth;
using Polygon = std::vector<EastNorth>;

constexpr double grain = 1e4;  // a metre in corners' grain: a tenth of a millimetre
constexpr std::size_t most_places = 40;

using Corner = std::pair<std::int64_t, std::int64_t>;

Corner corner_of(const EastNorth& at) {
    return {std::llround(at.e * grain), std::llround(at.n * grain)};
}

struct Weighed {
    EastNorth at;
    double height;
};

// Where the height is 0 between two corners; the same whichever comes first.
EastNorth crossing(Weighed a, Weighed b) {
    if (std::pair(b.at.e, b.at.n) < std::pair(a.at.e, a.at.n)) std::swap(a, b);
    const double share = a.height / (a.height - b.height);
    return {a.at.e + share * (b.at.e - a.at.e), a.at.n + share * (b.at.n - a.at.n)};
}

// What of a polygon lies above 0 (sign 1) or below (-1).
std::vector<Weighed> part_of(const std::vector<Weighed>& polygon, double sign) {
    std::vector<Weighed> part;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Weighed& a = polygon[i];
        const Weighed& b = polygon[(i + 1) % polygon.size()];
        if (sign * a.height >= 0) part.push_back(a);
        if (a.height * b.height < 0) part.push_back({crossing(a, b), 0});
    }
    const bool any =
        std::any_of(part.begin(), part.end(), [](const Weighed& each) { return each.height != 0; });
    return any && part.size() > 2 ? part : std::vector<Weighed>();
}

bool inside(const Polygon& ring, const EastNorth& at) {
    bool in = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const EastNorth &a = ring[i], &b = ring[j];
        if ((a.n > at.n) != (b.n > at.n) && at.e < a.e + (at.n - a.n) / (b.n - a.n) * (b.e - a.e)) in = !in;
    }
    return in;
}

// Each hole to the smallest outline around it.
std::vector<PatchArea> areas_of(std::vector<Polygon> rings) {
    std::vector<PatchArea> areas;
    std::vector<Polygon> holes;
    for (Polygon& ring : rings) {
        if (ground::area_within(ring) > 0) {
            areas.push_back({std::move(ring), {}});
        } else {
            holes.push_back(std::move(ring));
        }
    }
    for (Polygon& hole : holes) {
        PatchArea* best = nullptr;
        for (PatchArea& area : areas) {
            // A corner may lie on the outline; the middle of a side lies clearly in or out more often.
            const EastNorth at = {(hole[0].e + hole[1].e) / 2, (hole[0].n + hole[1].n) / 2};
            if (!inside(area.outline, at)) continue;
            if (best == nullptr || ground::area_within(area.outline) < ground::area_within(best->outline))
                best = &area;
        }
        if (best != nullptr) best->holes.push_back(std::move(hole));
    }
    return areas;
}

class Parter {
  public:
    void add(const std::vector<Weighed>& polygon) {
        for (const Weighed& each : polygon) {
            if (std::isnan(each.height)) return;
        }
        keep(part_of(polygon, 1), cut_, found_.cut);
        keep(part_of(polygon, -1), fill_, found_.fill);
        std::vector<EastNorth> ends;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Weighed& a = polygon[i];
            const Weighed& b = polygon[(i + 1) % polygon.size()];
            if (a.height == 0) ends.push_back(a.at);
            if (a.height * b.height < 0) ends.push_back(crossing(a, b));
        }
        if (ends.size() == 2 && polygon.size() == 3) found_.zero.push_back({ends[0], ends[1]});
    }

    CutAndFill take() {
        finish(cut_, found_.cut);
        finish(fill_, found_.fill);
        return std::move(found_);
    }

  private:
    static void keep(const std::vector<Weighed>& part, std::vector<Polygon>& all, Patches& patches) {
        if (part.empty()) return;
        Polygon polygon;
        Patch patch;
        double height = 0;
        for (const Weighed& each : part) {
            polygon.push_back(each.at);
            patch.middle.e += each.at.e / static_cast<double>(part.size());
            patch.middle.n += each.at.n / static_cast<double>(part.size());
            height += std::fabs(each.height) / static_cast<double>(part.size());
        }
        patch.size = std::fabs(ground::area_within(polygon)) * height;
        patches.places.push_back(patch);
        all.push_back(std::move(polygon));
    }

    static void finish(const std::vector<Polygon>& all, Patches& patches) {
        patches.areas = areas_of(joined(all));
        // The word goes to the middle of it all, or as near as there is something.
        EastNorth middle;
        double sum = 0;
        for (const Patch& patch : patches.places) {
            sum += patch.size;
            middle.e += patch.size * patch.middle.e;
            middle.n += patch.size * patch.middle.n;
        }
        if (sum > 0) middle = {middle.e / sum, middle.n / sum};
        const auto off = [&middle](const Patch& patch) {
            const double de = patch.middle.e - middle.e, dn = patch.middle.n - middle.n;
            return de * de + dn * dn;
        };
        sort_stably(patches.places, [&off](const Patch& a, const Patch& b) { return off(a) < off(b); });
        if (patches.places.size() > most_places) patches.places.resize(most_places);
    }

    CutAndFill found_;
    std::vector<Polygon> cut_, fill_;
};

// Heights at the corners of the sheet, NaN where they are not told.
std::vector<double> heights_of(const Evaluation& evaluation, const ground::SurveyedSurface& surface,
                               const ground::SurfaceVolume& volume) {
    const ground::Sheet& sheet = surface.ready.sheet;
    const SurfaceTarget& target = *volume.target;
    std::vector<double> heights(sheet.at.size(), NAN);
    if (target.surface == no_name) {
        EastNorth at = {target.at[0].or_else(0), target.at[1].or_else(0)};
        if (!target.at[0].has() && target.place != no_name && target.place < evaluation.where.points.size()) {
            const Spot& spot = evaluation.where.points[target.place];
            at = {spot.e, spot.n};
        }
        for (std::size_t i = 0; i < heights.size(); ++i) {
            const EastNorth place = {sheet.at[i].e + sheet.origin.e, sheet.at[i].n + sheet.origin.n};
            heights[i] =
                sheet.level[i] - surface.ready.entry->strip - ground::target_level(target, at, place);
        }
        return heights;
    }
    std::unordered_map<NameId, double> digs;
    for (std::size_t i = 0; i < surface.ready.inner.size() && i < volume.digs.size(); ++i)
        digs.emplace(surface.ready.inner[i].name, volume.digs[i].dig);
    for (std::size_t i = 0; i < sheet.spots(); ++i) {
        const auto found = digs.find(surface.ready.spots.spots[static_cast<std::size_t>(sheet.spot[i])].name);
        if (found != digs.end()) heights[i] = found->second;
    }
    for (std::size_t b = 0; b < sheet.blends.size(); ++b) {
        const ground::Blend& blend = sheet.blends[b];
        double sum = 0;
        for (std::int32_t k = 0; k < blend.count; ++k) {
            const auto at = static_cast<std::size_t>(k);
            sum += blend.share[at] * heights[static_cast<std::size_t>(blend.of[at])];
        }
        heights[sheet.spots() + b] = sum;
    }
    return heights;
}

}  // namespace

std::vector<Polygon> joined(const std::vector<Polygon>& polygons) {
    std::map<Corner, EastNorth> at;
    std::map<std::pair<Corner, Corner>, int> edges;
    for (const Polygon& polygon : polygons) {
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Corner a = corner_of(polygon[i]), b = corner_of(polygon[(i + 1) % polygon.size()]);
            if (a == b) continue;
            at.emplace(a, polygon[i]);
            at.emplace(b, polygon[(i + 1) % polygon.size()]);
            const auto back = edges.find({b, a});
            if (back == edges.end()) {
                ++edges[{a, b}];
            } else if (--back->second == 0) {
                edges.erase(back);
            }
        }
    }
    std::vector<Polygon> rings;
    while (!edges.empty()) {
        Polygon ring;
        const Corner start = edges.begin()->first.first;
        for (Corner here = start;;) {
            const auto next = edges.lower_bound({here, {INT64_MIN, INT64_MIN}});
            if (next == edges.end() || next->first.first != here) break;
            ring.push_back(at.at(here));
            here = next->first.second;
            if (--next->second == 0) edges.erase(next);
            if (here == start) break;
        }
        if (ring.size() > 2) rings.push_back(std::move(ring));
    }
    return rings;
}

CutAndFill cut_and_fill(const Evaluation& evaluation, const ground::SurveyedSurface& surface,
                        const ground::SurfaceVolume& volume) {
    const ground::Sheet& sheet = surface.ready.sheet;
    const std::vector<double> heights = heights_of(evaluation, surface, volume);
    const auto place = [&sheet](const EastNorth& at) {
        return EastNorth{at.e + sheet.origin.e, at.n + sheet.origin.n};
    };
    Parter parter;
    for (std::size_t t = 0; t < sheet.triangles.size(); ++t) {
        std::array<double, 3> height{};
        for (std::size_t k = 0; k < 3; ++k)
            height[k] = heights[static_cast<std::size_t>(sheet.triangles[t][k])];
        std::vector<Weighed> polygon;
        if (t < sheet.whole()) {
            for (std::size_t k = 0; k < 3; ++k)
                polygon.push_back(
                    {place(sheet.at[static_cast<std::size_t>(sheet.triangles[t][k])]), height[k]});
        } else {
            for (const EastNorth& corner : sheet.parts[t - sheet.whole()]) {
                const std::array<double, 3> share = ground::shares_at(sheet, t, corner);
                polygon.push_back(
                    {place(corner), share[0] * height[0] + share[1] * height[1] + share[2] * height[2]});
            }
        }
        parter.add(polygon);
    }
    return parter.take();
}

}  // namespace fallwright::record
