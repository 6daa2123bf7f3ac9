#include "setout/there.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "setout/stations.h"

namespace fallwright {

There::There(const SetoutBasis& basis, std::size_t line)
    : basis_(basis),
      design_(basis.designs.lines[line]),
      ground_(basis.book, basis.found[line], basis.model),
      profile_name_(profile_surface(basis.book.lines[line])),
      level_of_(levels_found(basis.model)) {
    profile_ = design_.heights().find(profile_name_);
    formation_ = design_.heights().find("formation");
    if (carries_pipes(basis.book.lines[line])) crown_ = design_.heights().find("crown");
}

void There::fill(SetoutRow& row, Side side) const {
    fill_dig(row, side);
    if (std::fabs(row.off) >= least_offset) return;
    fill_trench(row, side);
    fill_cover(row, side);
}

There::Difference There::above(const LevelAlong& ground, const DesignLevel& wanted) const {
    if (std::isnan(ground.level) || !wanted.has()) return {};
    std::vector<PointTerm> sum = ground.terms;
    for (const Hang& hang : wanted.hangs) {
        const std::int32_t point = basis_.model.points.at(hang.point);
        if (point < 0) return {};
        sum.push_back({point, -hang.coefficient});
    }
    return {ground.level - wanted.value(level_of_), std::move(sum)};
}

double There::sd_of(const Difference& difference) const {
    return std::isnan(difference.value) ? NAN : std::sqrt(basis_.model.variance_of(difference.terms));
}

There::Difference There::to_dig(double ch, double off, Side side, std::string& dig_to) const {
    const DesignLevel formation = design_.level(formation_, ch, off, side);
    const DesignLevel wanted = formation.has() ? formation : design_.level(profile_, ch, off, side);
    if (!wanted.has()) return {};
    dig_to = formation.has() ? "formation" : profile_name_;
    return above(ground_.at(ch, off), wanted);
}

void There::fill_dig(SetoutRow& row, Side side) const {
    const Difference dig = to_dig(row.ch, row.off, side, row.dig_to);
    row.dig = dig.value;
    row.dig_sd = sd_of(dig);
}

// From the higher edge, where the edges of the line were read.
There::Difference There::trench(double ch, Side side) const {
    Difference deepest;
    if (!carries_pipes(design_.line())) return deepest;
    const DesignLevel bottom = design_.level(formation_, ch, 0, side);
    const std::array<Maybe, 2> edges = design_.edges();
    for (const double off : {0.0, edges[0].or_else(0), edges[1].or_else(0)}) {
        Difference depth = above(ground_.at(ch, off), bottom);
        if (!std::isnan(depth.value) && !(depth.value <= deepest.value)) deepest = std::move(depth);
    }
    return deepest;
}

There::Difference There::depth(double ch, Side side) const {
    std::string dig_to;
    Difference deep = trench(ch, side);
    return std::isnan(deep.value) ? to_dig(ch, 0, side, dig_to) : deep;
}

void There::fill_trench(SetoutRow& row, Side side) const {
    const Difference depth = trench(row.ch, side);
    row.trench_depth = depth.value;
    row.trench_depth_sd = sd_of(depth);
}

void There::fill_cover(SetoutRow& row, Side side) const {
    const double crown = design_.level(crown_, row.ch, 0, side).value(level_of_);
    const double lid = chamber_cover(row.ch);
    row.cover = (std::isnan(lid) ? ground_.at(row.ch, 0).level : lid) - crown;
}

double There::chamber_cover(double ch) const {
    for (const Chamber& chamber : design_.line().chambers) {
        if (std::fabs(chamber.ch - ch) < least_chainage) return chamber.cover.value;
    }
    return NAN;
}

}  // namespace fallwright
