#include "setout/trench.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "fall/dig_to.h"
#include "setout/stations.h"
#include "setout/there.h"

namespace fallwright {

namespace {

// By rising chainage, each once.
std::vector<double> places_along(const SetoutBasis& basis, std::size_t line) {
    const Design& design = basis.designs.lines[line];
    std::vector<double> all = stations_of(design, {}, levels_found(basis.model)).chainages;
    const NameId ground = basis.book.names.find("ground");
    for (const Station& station : basis.found[line].stations) {
        const bool inside = station.ch >= design.profile().from() && station.ch <= design.profile().to();
        if (station.what == ground && inside) all.push_back(station.ch);
    }
    std::sort(all.begin(), all.end());
    const auto close = [](double a, double b) { return std::fabs(a - b) < least_chainage; };
    all.erase(std::unique(all.begin(), all.end(), close), all.end());
    return all;
}

OverDesign deeper_side(const There& there, double ch) {
    OverDesign before = there.depth(ch, Side::Before), after = there.depth(ch, Side::After);
    return std::isnan(after.value) || before.value > after.value ? std::move(before) : std::move(after);
}

}  // namespace

Trench trench_along(const SetoutBasis& basis, std::size_t line) {
    Trench trench;
    if (!carries_pipes(basis.book.lines[line]) || !basis.designs.lines[line].any()) return trench;
    const There there(basis, line);
    OverDesign deepest;
    for (const double ch : places_along(basis, line)) {
        OverDesign depth = deeper_side(there, ch);
        trench.depths.push_back({ch, depth.value});
        if (!(depth.value > 0) || depth.value <= deepest.value) continue;
        deepest = std::move(depth);
        trench.deepest_at = ch;
    }
    trench.deepest = deepest.value;
    trench.deepest_sd = over_sd(deepest, basis.model);
    return trench;
}

}  // namespace fallwright
