#include "record/scales.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"

namespace fallwright::record {

namespace {

constexpr double slack = 1e-9;  // a scale that is missed by rounding alone is met
constexpr double inches_per_foot = 12;

// The scales between 1 and 10 times a decade, as factors of it.
std::vector<double> factors(double decade, Unit unit) {
    if (unit == Unit::Foot) return {1, 2, 3, 4, 5, 6};
    return decade >= 10 ? std::vector<double>{1, 2, 2.5, 5} : std::vector<double>{1, 2, 5};
}

// From the finest up, to beyond any line.
std::vector<double> all_scales(Unit unit) {
    std::vector<double> all = {0.1, 0.2, 0.5};
    if (unit == Unit::Foot) all.insert(all.end(), {1, 2, 4, 6});
    const double base = unit == Unit::Foot ? inches_per_foot : 1;
    double decade = 1;
    for (int i = 0; i < 12; ++i, decade *= 10) {
        for (const double factor : factors(decade, unit)) all.push_back(base * factor * decade);
    }
    return all;
}

}  // namespace

double round_scale(double n, Unit unit) {
    const std::vector<double> all = all_scales(unit);
    for (const double scale : all) {
        if (scale >= n * (1 - slack)) return scale;
    }
    return all.back();
}

double coarser_scale(double scale, Unit unit) {
    return round_scale(scale * (1 + 1e-6), unit);
}

double scale_for_at_least(double metres, double mm, Unit unit) {
    const std::vector<double> all = all_scales(unit);
    double found = all.front();
    for (const double scale : all) {
        if (on_paper(metres, scale) >= mm * (1 - slack)) found = scale;
    }
    return found;
}

std::string scale_words(double scale, Unit unit) {
    if (scale < 1) return trimmed(1 / scale, 1) + ":1";
    std::string ratio = "1:" + trimmed(scale, 1);
    if (unit != Unit::Foot || scale < inches_per_foot) return ratio;
    return "1 in = " + trimmed(scale / inches_per_foot, 1) + " ft (" + ratio + ")";
}

double round_step(double least, Unit unit) {
    const double metres = unit == Unit::Foot ? metres_per_foot : 1;
    const double wanted = least / metres * (1 - slack);
    double decade = 1e-4;
    while (decade * 10 < wanted) decade *= 10;
    for (;; decade *= 10) {
        for (const double factor : {1.0, 2.0, 5.0}) {
            if (factor * decade >= wanted) return factor * decade * metres;
        }
    }
}

std::vector<Window> windows_of(const std::vector<double>& chainages, double width, std::size_t most) {
    std::vector<Window> windows;
    for (std::size_t i = 0; i < chainages.size(); ++i) {
        const bool fits = !windows.empty() && chainages[i] - windows.back().from <= width * (1 + slack) &&
                          i - windows.back().first < most;
        if (!fits) {
            if (!windows.empty()) {
                // Never before its last place, which may lie over the edge by rounding.
                Window& before = windows.back();
                before.to = std::max(before.to, std::min(chainages[i], before.from + width));
            }
            windows.push_back({i, i, chainages[i], chainages[i]});
        }
        windows.back().last = i;
        windows.back().to = chainages[i];
    }
    return windows;
}

double scale_along(const std::vector<double>& chainages, double width, double apart, Unit unit) {
    if (chainages.size() < 2) return round_scale(100, unit);
    const double length = chainages.back() - chainages.front();
    std::vector<double> gaps;
    for (std::size_t i = 1; i < chainages.size(); ++i) {
        const double gap = chainages[i] - chainages[i - 1];
        if (gap > 1e-6) gaps.push_back(gap);
    }
    if (gaps.empty()) return round_scale(100, unit);
    std::sort(gaps.begin(), gaps.end());
    const double usual = gaps[gaps.size() / 10];
    const double whole = round_scale(length * mm_per_metre / width, unit);
    return std::min(whole, scale_for_at_least(usual, apart, unit));
}

std::vector<double> spread(const std::vector<double>& wanted, double apart, double from, double to) {
    // Groups that push each other lie side by side about the mean of where their members want to be.
    struct Group {
        double sum;  // of wanted places, each less its place within the group
        std::size_t count;
        double start() const { return sum / static_cast<double>(count); }
    };
    std::vector<Group> groups;
    const auto length = [apart](std::size_t count) { return apart * static_cast<double>(count); };
    for (const double place : wanted) {
        groups.push_back({place, 1});
        while (groups.size() > 1) {
            const Group& last = groups.back();
            Group& before = groups[groups.size() - 2];
            if (before.start() + length(before.count) <= last.start()) break;
            before.sum += last.sum - length(before.count) * static_cast<double>(last.count);
            before.count += last.count;
            groups.pop_back();
        }
    }
    std::vector<double> places;
    for (const Group& group : groups) {
        for (std::size_t i = 0; i < group.count; ++i) places.push_back(group.start() + length(i));
    }
    double least = from;
    for (double& place : places) {
        place = std::max(place, least);
        least = place + apart;
    }
    double most = to;
    for (auto place = places.rbegin(); place != places.rend(); ++place) {
        *place = std::min(*place, most);
        most = *place - apart;
    }
    return places;
}

}  // namespace fallwright::record
