#include "drain/follow_grades.h"

#include <algorithm>
#include <cmath>

#include "drain/small_lp.h"

namespace fallwright::drain {

namespace {

constexpr double same_place = 1e-9;  // metres

class Program {
  public:
    Program(const FollowRoad& road, const FollowLimits& limits, const Stops& stops,
            std::span<const std::size_t> between)
        : road_(road), limits_(limits), stops_(stops), between_(between) {
        add_falls();
        add_cover();
        add_inlet();
        add_outfall();
    }

    Graded solve() {
        std::vector<double> gain(between_.size(), 0.0);
        for (std::size_t i = 0; i + 1 < between_.size(); ++i) {
            gain[i] += length(i) / 2;
            gain[i + 1] += length(i) / 2;
        }
        const LpCorner best = best_corner(gain, rows_, first_corner());
        Graded graded;
        graded.found = best.found;
        if (!best.found) return graded;
        graded.y = best.x;
        for (std::size_t i = 0; i < gain.size(); ++i) graded.gain += gain[i] * best.x[i];
        for (std::size_t i = 0; i < best.tight.size(); ++i) hold(best.tight[i], best.price[i], graded.held);
        return graded;
    }

  private:
    struct Meaning {
        Holder by;
        double x;
        double weight;  // price of one more of the limit, from the price of `most`
    };

    double at(std::size_t i) const { return stops_.x[between_[i]]; }
    double length(std::size_t i) const { return at(i + 1) - at(i); }

    void add(const Limit& limit, const Meaning& meaning) {
        rows_.push_back(limit);
        means_.push_back(meaning);
    }

    void add_falls() {
        for (std::size_t i = 0; i + 1 < between_.size(); ++i) {
            const double l = length(i);
            add({i, -1, 1, -limits_.least_fall * l}, {Holder::LeastFall, at(i), l});
        }
        if (!std::isfinite(limits_.steepest_fall)) return;
        for (std::size_t i = 0; i + 1 < between_.size(); ++i) {
            const double l = length(i);
            add({i, 1, -1, limits_.steepest_fall * l}, {Holder::SteepestFall, at(i), l});
        }
    }

    // The stops themselves, then whatever was read between them.
    void add_cover() {
        first_cover_ = rows_.size();
        for (std::size_t i = 0; i < between_.size(); ++i)
            add({i, 1, 0, stops_.highest[between_[i]]}, {Holder::Cover, at(i), 1});
        for (std::size_t i = 0; i + 1 < between_.size(); ++i) {
            const auto from = std::upper_bound(road_.x.begin(), road_.x.end(), at(i) + same_place);
            for (auto x = from; x != road_.x.end() && *x < at(i + 1) - same_place; ++x) {
                const double share = (*x - at(i)) / length(i);
                const double highest = road_.highest[static_cast<std::size_t>(x - road_.x.begin())];
                add({i, 1 - share, share, highest}, {Holder::Cover, *x, 1});
            }
        }
    }

    void add_inlet() {
        if (!std::isfinite(limits_.inlet) || between_.front() != 0) return;
        add({0, 1, 0, limits_.inlet}, {Holder::Inlet, at(0), 1});
    }

    void add_outfall() {
        last_upper_ = rows_.size();
        if (!std::isfinite(limits_.outfall) || between_.back() + 1 != stops_.x.size()) return;
        const std::size_t end = between_.size() - 1;
        add({end, -1, 0, -limits_.outfall}, {Holder::Outfall, at(end), 1});
    }

    // All grades at the least fall, as high as something lets them. No pipe ends higher than this one, so it
    // reaches the outfall where any does.
    std::vector<std::size_t> first_corner() const {
        std::vector<double> shape = {0};
        for (std::size_t i = 0; i + 1 < between_.size(); ++i)
            shape.push_back(shape.back() - limits_.least_fall * length(i));
        std::size_t lowest = first_cover_;
        double room = INFINITY;
        for (std::size_t row = first_cover_; row < last_upper_; ++row) {
            const Limit& limit = rows_[row];
            const double second = limit.second == 0 ? 0 : limit.second * shape[limit.unknown + 1];
            const double here = limit.most - limit.first * shape[limit.unknown] - second;
            if (here >= room) continue;
            room = here;
            lowest = row;
        }
        std::vector<std::size_t> tight;
        for (std::size_t i = 0; i + 1 < between_.size(); ++i) tight.push_back(i);
        tight.push_back(lowest);
        return tight;
    }

    void hold(std::size_t row, double price, std::vector<Held>& held) const {
        const Meaning& meaning = means_[row];
        held.push_back({meaning.by, meaning.x, std::max(0.0, price) * meaning.weight});
    }

    const FollowRoad& road_;
    const FollowLimits& limits_;
    const Stops& stops_;
    std::span<const std::size_t> between_;
    std::vector<Limit> rows_;
    std::vector<Meaning> means_;
    std::size_t first_cover_ = 0, last_upper_ = 0;  // limits from above
};

}  // namespace

Stops::Stops(const FollowRoad& road) {
    x.push_back(road.x.front());
    for (const double candidate : road.breaks) {
        if (candidate > x.back() + same_place && candidate < road.x.back() - same_place)
            x.push_back(candidate);
    }
    x.push_back(road.x.back());
    for (const double stop : x) highest.push_back(highest_at(road, stop));
}

double Stops::highest_at(const FollowRoad& road, double where) const {
    const auto after = std::lower_bound(road.x.begin(), road.x.end(), where - same_place);
    const auto i = static_cast<std::size_t>(after - road.x.begin());
    if (i == road.x.size()) return road.highest.back();
    if (i == 0 || road.x[i] <= where + same_place) return road.highest[i];
    const double share = (where - road.x[i - 1]) / (road.x[i] - road.x[i - 1]);
    return road.highest[i - 1] + share * (road.highest[i] - road.highest[i - 1]);
}

Graded best_grades(const FollowRoad& road, const FollowLimits& limits, const Stops& stops,
                   std::span<const std::size_t> between) {
    return Program(road, limits, stops, between).solve();
}

}  // namespace fallwright::drain
