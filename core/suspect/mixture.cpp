#include "suspect/mixture.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fallwright {

namespace {

double entropy_between(const std::vector<Member>& members, double from, double to) {
    constexpr int steps = 240;
    constexpr double root_two_pi = 2.5066282746310002;
    const double step = (to - from) / steps;
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
        const double z = from + (i + 0.5) * step;
        double density = 0;
        for (const Member& member : members) {
            const double off = z - member.mean;
            density += member.weight * std::exp(-off * off / (2 * member.variance)) /
                       (root_two_pi * std::sqrt(member.variance));
        }
        if (density > 0) sum -= density * std::log(density) * step;
    }
    return sum;
}

}  // namespace

double mutual_information(const std::vector<Member>& members) {
    constexpr double reach = 6, half_log_two_pi_e = 1.4189385332046727;
    std::vector<std::pair<double, double>> windows;
    double own = 0;
    for (const Member& member : members) {
        const double sd = std::sqrt(member.variance);
        own += member.weight * (half_log_two_pi_e + std::log(sd));
        windows.emplace_back(member.mean - reach * sd, member.mean + reach * sd);
    }
    std::sort(windows.begin(), windows.end());
    double mixture = 0, from = windows.front().first, to = windows.front().second;
    for (const auto& [begin, end] : windows) {
        if (begin > to) {
            mixture += entropy_between(members, from, to);
            from = begin;
        }
        to = std::max(to, end);
    }
    return mixture + entropy_between(members, from, to) - own;
}

}  // namespace fallwright
