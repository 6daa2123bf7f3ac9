#include "ground/balance.h"

#include <algorithm>
#include <cmath>

namespace fallwright::ground {

namespace {

constexpr int most_steps = 200;
constexpr double room = 1e-13;  // of the range of heights

struct Range {
    double low = 0, high = 0;
};

Range range_of(const Prisms& prisms) {
    Range range = {INFINITY, -INFINITY};
    for (const Prism& prism : prisms.prisms) {
        for (const std::int32_t corner : prism.corner) {
            const double height = prisms.height[static_cast<std::size_t>(corner)];
            range.low = std::min(range.low, height);
            range.high = std::max(range.high, height);
        }
    }
    return range;
}

// Newton's steps, each kept between heights that are known to be too low and too high.
double level_of_balance(const Prisms& prisms, double placed) {
    Range range = range_of(prisms);
    const double enough = room * (1 + range.high - range.low);
    double z = (range.low + range.high) / 2;
    for (int step = 0; step < most_steps && range.high - range.low > enough; ++step) {
        const Earthwork work = earthwork(prisms, z);
        const double over = placed * work.cut - work.fill;
        if (over == 0) break;
        (over > 0 ? range.low : range.high) = z;
        const double slope = placed * work.cut_area + work.fill_area;
        const double next = z + over / slope;
        const bool inside = next > range.low && next < range.high;
        const double moved = std::fabs(next - z);
        z = inside ? next : (range.low + range.high) / 2;
        if (inside && moved <= enough) break;
    }
    return z;
}

}  // namespace

// Where everything lies at one height nothing is dug or filled at it; what counts is then what counts just
// below.
Balance balance(const Prisms& prisms, double placed) {
    Balance found;
    found.raised = level_of_balance(prisms, placed);
    found.work = earthwork(prisms, found.raised);
    double at = found.raised;
    Earthwork counted = found.work;
    if (!(counted.area() > 0)) counted = earthwork(prisms, --at);
    const EarthworkWeights weights = earthwork_weights(prisms, at);
    const double slope = placed * counted.cut_area + counted.fill_area;
    if (!(slope > 0)) found.raised = NAN;
    found.weights.reserve(weights.cut.size());
    for (std::size_t i = 0; i < weights.cut.size(); ++i)
        found.weights.push_back((placed * weights.cut[i] - weights.fill[i]) / slope);
    return found;
}

}  // namespace fallwright::ground
