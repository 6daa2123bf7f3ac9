#include "drain/trench_section.h"

#include <algorithm>
#include <cmath>

#include "ground/end_areas.h"

namespace fallwright::drain {

namespace {

constexpr double pi = 3.14159265358979323846;

double straight(double a, double b, double share) {
    return a + (b - a) * share;
}

}  // namespace

TrenchSection::TrenchSection(const TrenchRule& rule, const Pipe& pipe)
    : rule_(&rule),
      pipe_(&pipe),
      outside_(pipe.bore.or_else(0) + 2 * pipe.wall.or_else(0)),
      bedding_(pipe.bedding.or_else(0)),
      bends_{0,
             bedding_,
             bedding_ + outside_,
             bedding_ + outside_ + rule.surround,
             preset::width_steps[0],
             preset::width_steps[1],
             preset::width_steps[2]} {
    std::sort(bends_.begin(), bends_.end());
}

SectionAreas TrenchSection::areas(double depth, double width) const {
    const auto up_to = [&](double height) {
        const double h = std::clamp(height, 0.0, std::max(0.0, depth));
        return h * (width + rule_->batter * h);
    };
    SectionAreas areas;
    areas.dug = up_to(depth);
    areas.bedding = up_to(bedding_);
    // Of a pipe that stands out of the ground the part below counts by its height.
    const double below = outside_ > 0 ? std::clamp((depth - bedding_) / outside_, 0.0, 1.0) : 0;
    areas.pipe = below * pi / 4 * outside_ * outside_;
    areas.surround = std::max(0.0, up_to(bedding_ + outside_ + rule_->surround) - areas.bedding - areas.pipe);
    return areas;
}

void TrenchSection::add_piece(double length, double depth1, double depth2, Dug& dug,
                              std::array<double, 2>& weights) const {
    const SectionAreas first = areas(depth1, width(depth1));
    const SectionAreas last = areas(depth2, width(depth2));
    dug.by_end_areas += volume_by_end_areas(std::array<SectionArea, 2>{{{0, first.dug}, {length, last.dug}}},
                                            ZeroEnds::Wedges);
    // Shares of the length at which the depth passes a bend, rising.
    double before = 0;
    const auto add_to = [&](double share) {
        if (!(share > before)) return;
        const double d1 = straight(depth1, depth2, before);
        const double d2 = straight(depth1, depth2, share);
        add_part(length * (share - before), d1, d2, dug);
        const double middle = (d1 + d2) / 2;
        if (middle > 0) {
            // Width and sides at both ends and half way, times how near each end of the piece is: Simpson's
            // rule is exact for what bends by the square.
            const double w = width(middle);
            const auto grows = [&](double d) { return w + 2 * rule_->batter * d; };
            const double half = (before + share) / 2;
            const double sixth = length * (share - before) / 6;
            weights[1] += sixth * (grows(d1) * before + 4 * grows(middle) * half + grows(d2) * share);
            weights[0] +=
                sixth * (grows(d1) * (1 - before) + 4 * grows(middle) * (1 - half) + grows(d2) * (1 - share));
        }
        before = share;
    };
    const bool deeper = depth2 > depth1;
    for (std::size_t i = 0; i < bends_.size() && depth1 != depth2; ++i) {
        const double bend = bends_[deeper ? i : bends_.size() - 1 - i];
        add_to(std::clamp((bend - depth1) / (depth2 - depth1), 0.0, 1.0));
    }
    add_to(1);
}

void TrenchSection::add_part(double length, double depth1, double depth2, Dug& dug) const {
    const double middle = (depth1 + depth2) / 2;
    const double w = width(middle);
    const std::array<SectionAreas, 3> cut = {areas(depth1, w), areas(middle, w), areas(depth2, w)};
    const auto volume = [&](auto area) {
        const std::array<SectionArea, 3> sections = {
            {{0, area(cut[0])}, {length / 2, area(cut[1])}, {length, area(cut[2])}}};
        return volume_by_prismoids(sections).volume;
    };
    const double all = volume([](const SectionAreas& each) { return each.dug; });
    const double bedding = volume([](const SectionAreas& each) { return each.bedding; });
    const double surround = volume([](const SectionAreas& each) { return each.surround; });
    const double pipe = volume([](const SectionAreas& each) { return each.pipe; });
    dug.dug += all;
    dug.bedding += bedding;
    dug.surround += surround;
    dug.pipe += pipe;
    dug.backfill += all - bedding - surround - pipe;
}

}  // namespace fallwright::drain
