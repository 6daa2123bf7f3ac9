#include "fall/over_design.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "design/vertices.h"
#include "fall/falls.h"

namespace fallwright {

namespace {

// Adds what a design leans on; false where one of its points was not read.
bool add_hangs(const DesignLevel& wanted, const Model& model, double sign, std::vector<PointTerm>& sum) {
    for (const Hang& hang : wanted.hangs) {
        const std::int32_t point = model.points.at(hang.point);
        if (point < 0) return false;
        sum.push_back({point, sign * hang.coefficient});
    }
    return true;
}

}  // namespace

OverDesign over_design(const LevelAlong& there, const DesignLevel& wanted, const Model& model) {
    if (std::isnan(there.level) || !wanted.has()) return {};
    std::vector<PointTerm> sum = there.terms;
    if (!add_hangs(wanted, model, -1, sum)) return {};
    return {there.level - wanted.value(levels_found(model)), std::move(sum)};
}

double over_sd(const OverDesign& over, const Model& model) {
    if (std::isnan(over.value)) return NAN;
    // The level itself: its sd is known already.
    if (over.terms.size() == 1 && over.terms[0].coefficient == 1)
        return model.levels[static_cast<std::size_t>(over.terms[0].point)].sd;
    return std::sqrt(model.variance_of(over.terms));
}

double design_sd(const DesignLevel& wanted, const Model& model) {
    if (!wanted.has()) return NAN;
    if (wanted.hangs.empty()) return 0;
    std::vector<PointTerm> sum;
    if (!add_hangs(wanted, model, 1, sum)) return NAN;
    return std::sqrt(std::max(0.0, model.variance_of(sum)));
}

double chamber_lid(const LineEntry& line, double ch) {
    for (const Chamber& chamber : line.chambers) {
        if (std::fabs(chamber.ch - ch) < least_chainage) return chamber.cover.value;
    }
    return NAN;
}

}  // namespace fallwright
