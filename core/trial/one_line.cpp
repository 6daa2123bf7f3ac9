#include "trial/one_line.h"

#include <cmath>
#include <map>
#include <utility>

namespace fallwright {

namespace {

// The distances of two pegs from one station.
struct Pair {
    double first = 0, second = 0;

    double between() const { return first + second; }
    double beyond() const { return std::fabs(first - second); }
    double misses(double apart) const {
        return std::fmin(std::fabs(between() - apart), std::fabs(beyond() - apart));
    }
};

// How far apart two pegs are, from all stations that read both; of two that fit alike the larger, with the
// instrument between them.
double apart(const std::vector<Pair>& pairs) {
    double best = 0, least = INFINITY;
    for (const Pair& candidate : pairs) {
        for (const double length : {candidate.between(), candidate.beyond()}) {
            double missed = 0;
            for (const Pair& pair : pairs) missed += pair.misses(length);
            constexpr double alike = 1e-6;
            if (missed > least + alike || (missed > least - alike && length < best)) continue;
            best = length;
            least = missed;
        }
    }
    return best;
}

}  // namespace

void lay_in_one_line(std::vector<UsableShot>& shots) {
    std::map<std::size_t, const UsableShot*> first_of;  // by station
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Pair>> pairs;
    const auto pegs = [](const UsableShot& a, const UsableShot& b) {
        return a.peg < b.peg ? std::pair(a.peg, b.peg) : std::pair(b.peg, a.peg);
    };
    for (const UsableShot& shot : shots) {
        if (shot.faced) continue;
        const UsableShot& first = *first_of.emplace(shot.station, &shot).first->second;
        if (first.peg != shot.peg) pairs[pegs(first, shot)].push_back({first.terms.d, shot.terms.d});
    }
    std::map<std::pair<std::size_t, std::size_t>, double> lengths;
    for (const auto& [which, seen_from] : pairs) lengths[which] = apart(seen_from);
    for (UsableShot& shot : shots) {
        if (shot.faced) continue;
        const UsableShot& first = *first_of[shot.station];
        shot.terms.u = shot.terms.d;
        if (first.peg == shot.peg) continue;
        const Pair pair = {first.terms.d, shot.terms.d};
        const double length = lengths[pegs(first, shot)];
        const bool beyond = std::fabs(pair.beyond() - length) < std::fabs(pair.between() - length);
        if (!beyond) shot.terms.u = -shot.terms.d;
    }
}

}  // namespace fallwright
