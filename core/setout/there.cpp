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

OverDesign There::to_dig(double ch, double off, Side side, std::string& dig_to) const {
    const DesignLevel formation = design_.level(formation_, ch, off, side);
    const DesignLevel wanted = formation.has() ? formation : design_.level(profile_, ch, off, side);
    if (!wanted.has()) return {};
    dig_to = formation.has() ? "formation" : profile_name_;
    return over_design(ground_.at(ch, off), wanted, basis_.model);
}

void There::fill_dig(SetoutRow& row, Side side) const {
    const OverDesign dig = to_dig(row.ch, row.off, side, row.dig_to);
    row.dig = dig.value;
    row.dig_sd = over_sd(dig, basis_.model);
}

// From the higher edge, where the edges of the line were read.
OverDesign There::trench(double ch, Side side) const {
    OverDesign deepest;
    if (!carries_pipes(design_.line())) return deepest;
    const DesignLevel bottom = design_.level(formation_, ch, 0, side);
    const std::array<Maybe, 2> edges = design_.edges();
    for (const double off : {0.0, edges[0].or_else(0), edges[1].or_else(0)}) {
        OverDesign depth = over_design(ground_.at(ch, off), bottom, basis_.model);
        if (!std::isnan(depth.value) && !(depth.value <= deepest.value)) deepest = std::move(depth);
    }
    return deepest;
}

OverDesign There::depth(double ch, Side side) const {
    std::string dig_to;
    OverDesign deep = trench(ch, side);
    return std::isnan(deep.value) ? to_dig(ch, 0, side, dig_to) : deep;
}

void There::fill_trench(SetoutRow& row, Side side) const {
    const OverDesign depth = trench(row.ch, side);
    row.trench_depth = depth.value;
    row.trench_depth_sd = over_sd(depth, basis_.model);
}

void There::fill_cover(SetoutRow& row, Side side) const {
    const double crown = design_.level(crown_, row.ch, 0, side).value(level_of_);
    const double lid = chamber_lid(design_.line(), row.ch);
    row.cover = (std::isnan(lid) ? ground_.at(row.ch, 0).level : lid) - crown;
}

}  // namespace fallwright
