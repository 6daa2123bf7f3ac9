#include "design/design.h"

namespace fallwright {

Design::Design(const Book& book, const LineEntry& line, BuiltFlow flow, Profile profile)
    : line_(&line),
      flow_(flow),
      profile_(std::move(profile)),
      pipes_(line.pipes),
      heights_(line, book),
      across_(line.crossfall) {}

bool Design::runs_with_chainage(const LevelOf& level_of) const {
    return fallwright::runs_with_chainage(*line_, level_of);
}

Side Design::side_of(const DesignSurface& surface) const {
    return surface.arriving == flow_.with_chainage ? Side::Before : Side::After;
}

double Design::height(const DesignSurface& surface, double ch, Side side) const {
    return height_above_profile(surface, pipes_.at(ch, side));
}

DesignLevel Design::level(const DesignSurface& surface, double ch, double off, Side side) const {
    if (!surface.any()) return {};
    const double up = height(surface, ch, side) + rise_across(ch, off);
    if (std::isnan(up)) return {};
    return raised(profile_.level(ch, side), up);
}

DesignLevel Design::level(const DesignSurface& surface, double ch, double off) const {
    return level(surface, ch, off, side_of(surface));
}

DesignLevel Design::level(std::string_view what, double ch, double off) const {
    return level(heights_.find(what), ch, off);
}

std::array<Maybe, 2> Design::edges() const {
    const Maybe left{-line_->edges[0].value};
    const Maybe right = line_->edges[1];
    if (left.has() && right.has() && !(left.value < right.value)) return {};
    return {left, right};
}

}  // namespace fallwright
