#include "setout/stations.h"

#include <algorithm>
#include <cmath>

namespace fallwright {

namespace {

constexpr double exact = 1e-9;  // metres: a whole multiple within rounding

void add_multiples(const Profile& profile, double every, Stations& stations) {
    const double first = std::ceil((profile.from() - exact) / every);
    const double last = std::floor((profile.to() + exact) / every);
    // Written so that an interval too small to count with is too many.
    stations.too_many = !(last - first < static_cast<double>(most_stations));
    if (stations.too_many) return;
    const int count = last < first ? 0 : static_cast<int>(last - first) + 1;
    for (int i = 0; i < count; ++i) stations.chainages.push_back((first + i) * every);
}

// Own points stand first among equals, so that theirs is the chainage that stays.
void merge(std::vector<double>& own, std::vector<double>& multiples, std::vector<double>& all) {
    const auto close = [](double a, double b) { return std::fabs(a - b) < least_chainage; };
    own.erase(std::unique(own.begin(), own.end(), close), own.end());
    for (const double ch : multiples) {
        const auto next = std::lower_bound(own.begin(), own.end(), ch - least_chainage);
        if (next == own.end() || !close(*next, ch)) all.push_back(ch);
    }
    all.insert(all.end(), own.begin(), own.end());
    std::sort(all.begin(), all.end());
}

}  // namespace

std::string staff_surface(const LineEntry& line) {
    return carries_pipes(line) ? "laid" : "finished";
}

Stations stations_of(const Design& design, const Maybe& every, const LevelOf& level_of) {
    Stations stations;
    if (!design.any()) return stations;
    if (every.has()) add_multiples(design.profile(), every.value, stations);
    std::vector<double> own, all;
    for (const OwnPoint& point : design.own_points(level_of)) own.push_back(point.ch);
    merge(own, stations.chainages, all);
    stations.chainages = std::move(all);
    return stations;
}

std::vector<double> offsets_of(const Design& design) {
    std::vector<double> offsets = {0};
    if (!design.line().crossfall.given()) return offsets;
    for (const Maybe& edge : design.edges()) {
        if (edge.has() && std::fabs(edge.value) >= least_offset) offsets.push_back(edge.value);
    }
    std::sort(offsets.begin(), offsets.end());
    return offsets;
}

bool steps_at(const Design& design, double ch) {
    constexpr double same = 1e-7;  // metres: the book's own resolution
    const DesignLevel in = design.level("laid in", ch);
    const DesignLevel out = design.level("laid out", ch);
    // Written so that two that lean on different points (NaN) are a step.
    return in.has() && out.has() && !(std::fabs(difference(out, in)) < same);
}

std::vector<std::string> surfaces_at(const Design& design, const std::vector<std::string>& whats, double ch) {
    std::vector<std::string> surfaces;
    for (const std::string& what : whats) {
        if (what == "laid" && steps_at(design, ch)) {
            surfaces.emplace_back("laid in");
            surfaces.emplace_back("laid out");
        } else {
            surfaces.push_back(what);
        }
    }
    return surfaces;
}

}  // namespace fallwright
