#include "drain/follow.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>

#include "base/stable_order.h"
#include "drain/follow_grades.h"

namespace fallwright::drain {

namespace {

constexpr double never = -std::numeric_limits<double>::infinity();
// Digs that differ by less are one: so many square metres for each of the road.
constexpr double same_dig = 1e-9;
constexpr double same_level = 1e-9;  // metres

// What single grades between two stops gain at best, and from there the most that is left to gain.
class Bounds {
  public:
    Bounds(const FollowRoad& road, const FollowLimits& limits, const Stops& stops)
        : stops_(stops.x.size()),
          single_(stops_ * stops_, never),
          rest_(static_cast<std::size_t>(limits.grades) + 1, std::vector<double>(stops_, never)) {
        for (std::size_t from = 0; from + 1 < stops_; ++from) {
            for (std::size_t to = from + 1; to < stops_; ++to) {
                const std::array<std::size_t, 2> between = {from, to};
                const Graded grade = best_grades(road, limits, stops, between);
                if (grade.found) single_[from * stops_ + to] = grade.gain;
            }
        }
        rest_[0].back() = 0;
        for (std::size_t grades = 1; grades < rest_.size(); ++grades) add_grades(grades);
    }

    // From a stop to the end with at most so many grades that need not meet.
    double rest(std::size_t from, std::size_t grades) const { return rest_[grades][from]; }
    double single(std::size_t from, std::size_t to) const { return single_[from * stops_ + to]; }

  private:
    void add_grades(std::size_t grades) {
        rest_[grades].back() = 0;
        for (std::size_t from = 0; from + 1 < stops_; ++from) {
            double& best = rest_[grades][from];
            for (std::size_t to = from + 1; to < stops_; ++to)
                best = std::max(best, single(from, to) + rest_[grades - 1][to]);
        }
    }

    std::size_t stops_;
    std::vector<double> single_;
    std::vector<std::vector<double>> rest_;
};

// Depth first over the breaks, the most promising next one first.
class Search {
  public:
    Search(const FollowRoad& road, const FollowLimits& limits)
        : road_(road), limits_(limits), stops_(road), bounds_(road, limits, stops_) {
        slack_ = same_dig * (stops_.x.back() - stops_.x.front());
    }

    void run() {
        path_ = {0};
        go_on(0);
    }

    const Stops& stops() const { return stops_; }
    const Graded& best() const { return best_; }
    const std::vector<std::size_t>& breaks() const { return best_path_; }
    bool proved() const { return best_.found && programs_ <= most_programs; }

  private:
    // gained: the most that the grades so far can gain together.
    void go_on(double gained) {
        const auto left = static_cast<std::size_t>(limits_.grades) - (path_.size() - 1);
        if (left == 0) return;
        std::vector<std::pair<double, std::size_t>> next;
        for (std::size_t to = path_.back() + 1; to < stops_.x.size(); ++to)
            next.emplace_back(gained + bounds_.single(path_.back(), to) + bounds_.rest(to, left - 1), to);
        sort_stably(next, [](const auto& a, const auto& b) { return a.first > b.first; });
        for (const auto& [bound, to] : next) {
            if (!promises(bound)) continue;
            path_.push_back(to);
            look(left - 1);
            path_.pop_back();
        }
    }

    bool promises(double bound) const {
        return bound != never && programs_ <= most_programs && (!best_.found || bound > best_.gain + slack_);
    }

    void look(std::size_t left) {
        ++programs_;
        Graded graded = best_grades(road_, limits_, stops_, path_);
        const bool whole = path_.back() + 1 == stops_.x.size();
        if (!graded.found) return;
        if (!whole) {
            if (promises(graded.gain + bounds_.rest(path_.back(), left))) go_on(graded.gain);
        } else if (!best_.found || graded.gain > best_.gain + slack_) {
            best_ = std::move(graded);
            best_path_ = path_;
        }
    }

    const FollowRoad& road_;
    const FollowLimits& limits_;
    Stops stops_;
    Bounds bounds_;
    double slack_ = 0;
    std::vector<std::size_t> path_, best_path_;
    Graded best_;
    std::size_t programs_ = 0;
};

// No pipe ends higher than one that lies at the least fall all the way, as high as something lets it.
double highest_end(const FollowRoad& road, const FollowLimits& limits) {
    const double end = road.x.back();
    double highest = limits.inlet - limits.least_fall * (end - road.x.front());
    for (std::size_t i = 0; i < road.x.size(); ++i)
        highest = std::min(highest, road.highest[i] - limits.least_fall * (end - road.x[i]));
    return highest;
}

// The road counted from a datum of its own, where levels are of the order of 1.
double datum_of(const FollowRoad& road) {
    return *std::min_element(road.highest.begin(), road.highest.end());
}

double area_under(const std::vector<double>& x, const std::vector<double>& y) {
    double area = 0;
    for (std::size_t i = 1; i < x.size(); ++i) area += (x[i] - x[i - 1]) * (y[i] + y[i - 1]) / 2;
    return area;
}

// Where the pipe lies on one limit at both ends of a grade, or on several of one kind at one place, they are
// said once.
std::vector<Held> said_once(std::vector<Held> held) {
    sort_stably(held, [](const Held& a, const Held& b) { return a.x < b.x; });
    std::vector<Held> once;
    for (const Held& each : held) {
        const auto same = [&each](const Held& said) { return said.by == each.by && said.x == each.x; };
        const auto said = std::find_if(once.begin(), once.end(), same);
        if (said == once.end()) {
            once.push_back(each);
        } else {
            said->price += each.price;
        }
    }
    return once;
}

}  // namespace

double Followed::price_of(Holder by) const {
    double price = 0;
    for (const Held& each : held) price += each.by == by ? each.price : 0;
    return price;
}

Followed follow(const FollowRoad& road, const FollowLimits& limits) {
    assert(road.x.size() >= 2 && road.x.size() == road.highest.size());
    assert(limits.grades >= 1 && limits.grades <= most_grades && road.breaks.size() <= most_candidates);
    assert(limits.least_fall <= limits.steepest_fall);
    const double datum = datum_of(road);
    FollowRoad shifted = road;
    for (double& level : shifted.highest) level -= datum;
    FollowLimits from_datum = limits;
    from_datum.inlet -= datum;
    from_datum.outfall -= datum;
    Followed followed;
    const double end = highest_end(shifted, from_datum);
    followed.shortfall = std::max(0.0, from_datum.outfall - end);
    if (followed.shortfall > same_level) return followed;
    from_datum.outfall = std::min(from_datum.outfall, end);
    Search search(shifted, from_datum);
    search.run();
    followed.found = search.best().found;
    followed.proved = search.proved();
    for (const std::size_t stop : search.breaks()) followed.x.push_back(search.stops().x[stop]);
    followed.y = search.best().y;
    followed.dig = area_under(shifted.x, shifted.highest) - area_under(followed.x, followed.y);
    for (double& level : followed.y) level += datum;
    followed.held = said_once(search.best().held);
    return followed;
}

}  // namespace fallwright::drain
