#include "verdict/ponds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string_view>

#include "base/print.h"
#include "verdict/within.h"

namespace fallwright {

namespace {

// A place along the bottom; an outlet between two readings has the level between them.
struct Bed {
    double ch, level;
    std::vector<PointTerm> sum;
    bool drains;
};

class PondFinder {
  public:
    PondFinder(const Book& book, const Model& model, const LaidSurface& surface)
        : book_(book), model_(model) {
        for (const Station* station : surface.stations)
            bed_.push_back({station->ch,
                            model_.levels[static_cast<std::size_t>(station->point)].level,
                            {{station->point, 1}},
                            false});
    }

    void drain_at(double ch) {
        const auto next = std::find_if(bed_.begin(), bed_.end(),
                                       [ch](const Bed& bed) { return bed.ch > ch - least_chainage; });
        if (next == bed_.end()) return;
        if (next->ch < ch + least_chainage) {
            for (auto at = next; at != bed_.end() && at->ch < ch + least_chainage; ++at) at->drains = true;
        } else if (next != bed_.begin()) {
            bed_.insert(next, between(*(next - 1), *next, ch));
        }
    }

    std::vector<Pond> run(bool with_chainage) {
        if (bed_.size() < 2) return {};
        (with_chainage ? bed_.back() : bed_.front()).drains = true;
        fill();
        std::vector<Pond> ponds;
        for (std::size_t i = 0; i < bed_.size();) {
            if (!(water_[i] > bed_[i].level)) {
                ++i;
                continue;
            }
            const std::size_t first = i;
            while (i < bed_.size() && water_[i] > bed_[i].level && water_[i] == water_[first]) ++i;
            add(first, i - 1, ponds);
        }
        return ponds;
    }

  private:
    static Bed between(const Bed& a, const Bed& b, double ch) {
        const double share = (ch - a.ch) / (b.ch - a.ch);
        return {ch,
                a.level + share * (b.level - a.level),
                {{a.sum[0].point, 1 - share}, {b.sum[0].point, share}},
                true};
    }

    // The highest level on the way to the nearest ways out on either side, and which place that is.
    void fill() {
        const std::size_t n = bed_.size();
        std::vector<double> up(n), down(n);
        std::vector<std::size_t> up_sill(n), down_sill(n);
        sweep(up, up_sill, [](std::size_t k, std::size_t) { return k; });
        sweep(down, down_sill, [](std::size_t k, std::size_t count) { return count - 1 - k; });
        water_.resize(n);
        sill_.resize(n);
        for (std::size_t i = 0; i < n; ++i) {
            water_[i] = std::min(up[i], down[i]);
            sill_[i] = up[i] <= down[i] ? up_sill[i] : down_sill[i];
        }
    }

    template <class Place>
    void sweep(std::vector<double>& surface, std::vector<std::size_t>& sill, Place place) const {
        double highest = std::numeric_limits<double>::infinity();
        std::size_t at = 0;
        for (std::size_t k = 0; k < bed_.size(); ++k) {
            const std::size_t i = place(k, bed_.size());
            if (bed_[i].drains || bed_[i].level > highest) {
                highest = bed_[i].level;
                at = i;
            }
            surface[i] = highest;
            sill[i] = at;
        }
    }

    void add(std::size_t first, std::size_t last, std::vector<Pond>& ponds) const {
        std::size_t low = first;
        for (std::size_t i = first; i <= last; ++i) {
            if (bed_[i].level < bed_[low].level) low = i;
        }
        Pond pond;
        pond.depth = water_[low] - bed_[low].level;
        if (rounded_to(book_.in_unit(pond.depth), length_places) <= 0) return;
        pond.from = first == 0 ? bed_[0].ch : edge(first - 1, first);
        pond.to = last + 1 == bed_.size() ? bed_[last].ch : edge(last + 1, last);
        std::vector<PointTerm> sum = bed_[sill_[low]].sum;
        for (const PointTerm& term : bed_[low].sum) sum.push_back({term.point, -term.coefficient});
        const double sd = std::sqrt(std::max(0.0, model_.variance_of(sum)));
        pond.probability = probability_within(pond.depth, sd, {0, Limits().above});
        ponds.push_back(pond);
    }

    // Where the water over `wet` meets the bed towards `dry`.
    double edge(std::size_t dry, std::size_t wet) const {
        const double rise = bed_[dry].level - bed_[wet].level;
        if (rise <= 0) return bed_[wet].ch;
        const double share = std::min(1.0, (water_[wet] - bed_[wet].level) / rise);
        return bed_[wet].ch + share * (bed_[dry].ch - bed_[wet].ch);
    }

    const Book& book_;
    const Model& model_;
    std::vector<Bed> bed_;
    std::vector<double> water_;      // its surface over each place
    std::vector<std::size_t> sill_;  // the place that holds it up
};

std::array<std::string_view, 2> surfaces_of(LineUse use) {
    switch (use) {
        case LineUse::Drain:
            return {"laid", "invert"};
        case LineUse::Kerb:
            return {"kerb", "finished"};
        case LineUse::Other:
            return {"laid", "finished"};
        default:
            return {"finished", "finished"};
    }
}

}  // namespace

std::vector<Pond> find_ponds(const Book& book, const Design& design, const LineFalls& found,
                             const Model& model) {
    const std::vector<LaidSurface> surfaces = laid_surfaces(book, design, found, model);
    for (const std::string_view what : surfaces_of(design.line().use)) {
        for (const LaidSurface& surface : surfaces) {
            if (surface.what != what) continue;
            PondFinder finder(book, model, surface);
            for (const double outlet : design.line().outlets) finder.drain_at(outlet);
            return finder.run(design.runs_with_chainage(levels_found(model)));
        }
    }
    return {};
}

}  // namespace fallwright
