#include "drain/run_levels.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "setout/stations.h"

namespace fallwright::drain {

namespace {

// Pipes that a reader of a table need not tell apart.
bool alike(const Pipe* a, const Pipe* b) {
    if (a == nullptr || b == nullptr) return a == b;
    const auto same = [](const Maybe& x, const Maybe& y) { return x.has() ? x.value == y.value : !y.has(); };
    return same(a->bore, b->bore) && same(a->wall, b->wall) && same(a->bedding, b->bedding);
}

bool close(double a, double b) {
    return std::fabs(a - b) < least_chainage;
}

}  // namespace

RunLevels::RunLevels(const SetoutBasis& basis, std::size_t line)
    : basis_(basis),
      design_(basis.designs.lines[line]),
      level_of_(levels_found(basis.model)),
      with_chainage_(design_.runs_with_chainage(level_of_)),
      ground_(basis.book, basis.found[line], basis.model) {
    const Heights& heights = design_.heights();
    invert_ = heights.find("invert");
    soffit_ = heights.find("soffit");
    crown_ = heights.find("crown");
    bottom_ = heights.find("formation");
    for (const LaidSurface& surface : laid_surfaces(basis.book, design_, basis.found[line], basis.model)) {
        if (surface.what == "laid") laid_ = surface.stations;
    }
}

std::vector<double> RunLevels::chainages() const {
    std::vector<double> all;
    if (!design_.any()) return all;
    for (const OwnPoint& own : design_.own_points(level_of_)) all.push_back(own.ch);
    const auto within = [this](double ch) {
        return ch > design_.profile().from() - least_chainage && ch < design_.profile().to() + least_chainage;
    };
    for (const double ch : ground_.chainages()) {
        if (within(ch)) all.push_back(ch);
    }
    for (const Station* station : laid_) {
        if (within(station->ch)) all.push_back(station->ch);
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end(), close), all.end());
    return all;
}

std::string_view RunLevels::what(double ch, bool arriving) const {
    if (!steps_at(design_, ch)) return "laid";
    return arriving ? "laid in" : "laid out";
}

bool RunLevels::parts_at(double ch) const {
    const Pipe* before = pipe(ch, Side::Before);
    const Pipe* after = pipe(ch, Side::After);
    return before != nullptr && after != nullptr && (!alike(before, after) || steps_at(design_, ch));
}

std::pair<double, double> RunLevels::found(std::int32_t point) const {
    const PointLevel& level = basis_.model.levels[static_cast<std::size_t>(point)];
    return {level.level, level.sd};
}

const Station* RunLevels::laid(double ch, bool arriving) const {
    const auto first =
        std::lower_bound(laid_.begin(), laid_.end(), ch - least_chainage,
                         [](const Station* station, double value) { return station->ch < value; });
    const Station* plain = nullptr;
    const Station* other = nullptr;
    for (auto at = first; at != laid_.end() && close((*at)->ch, ch); ++at) {
        const std::string_view what = book().names.text((*at)->what);
        if (what == (arriving ? "laid in" : "laid out")) return *at;
        (what == "laid" ? plain : other) = *at;
    }
    if (plain != nullptr) return plain;
    return steps_at(design_, ch) ? nullptr : other;
}

RunStation RunLevels::station(double ch, bool arriving) const {
    const Side side = this->side(arriving);
    const Pipe* pipe = this->pipe(ch, side);
    const DesignLevel invert = this->invert(ch, side);
    RunStation station;
    station.ch = ch;
    station.what = what(ch, arriving);
    station.invert = invert.value(level_of_);
    station.design_sd = design_sd(invert, model());
    station.soffit = station.invert + height_above_profile(soffit_, pipe);
    station.crown = station.invert + height_above_profile(crown_, pipe);
    station.bottom = station.invert + height_above_profile(bottom_, pipe);
    fill_ground(station, invert, pipe, side);
    fill_laid(station, pipe, arriving);
    return station;
}

// All surfaces of the pipe keep their height above its invert, so one sd serves cover and depth.
void RunLevels::fill_ground(RunStation& station, const DesignLevel& invert, const Pipe* pipe,
                            Side side) const {
    const LevelAlong there = ground(station.ch);
    const OverDesign over = over_design(there, invert, model());
    const double sd = over_sd(over, model());
    station.ground = there.level;
    const bool alike = invert.hangs.empty() && !std::isnan(sd);
    station.ground_sd = alike ? sd : over_sd({there.level, there.terms}, model());
    const double lid = chamber_lid(line(), station.ch);
    station.cover = (std::isnan(lid) ? there.level : lid) - station.crown;
    station.cover_sd = std::isnan(station.cover) ? NAN : std::isnan(lid) ? sd : station.design_sd;
    station.depth = over.value - height_above_profile(bottom_, pipe);
    station.depth_sd = std::isnan(station.depth) ? NAN : sd;
    for (const Maybe& edge : design_.edges()) {
        if (!edge.has()) continue;
        const DesignLevel bottom = design_.level(bottom_, station.ch, 0, side);
        const OverDesign beside = over_design(ground_.at(station.ch, edge.value), bottom, model());
        // Written so that a depth that is not there yet gives way.
        if (std::isnan(beside.value) || station.depth >= beside.value) continue;
        station.depth = beside.value;
        station.depth_sd = over_sd(beside, model());
    }
}

void RunLevels::fill_laid(RunStation& station, const Pipe* pipe, bool arriving) const {
    const Station* laid = this->laid(station.ch, arriving);
    if (laid == nullptr) return;
    std::tie(station.laid, station.laid_sd) = found(laid->point);
    const double lid = chamber_lid(line(), station.ch);
    LevelAlong there = std::isnan(lid) ? ground(station.ch) : LevelAlong{lid, {}};
    station.laid_cover = there.level - station.laid - height_above_profile(crown_, pipe);
    if (std::isnan(station.laid_cover)) return;
    there.terms.push_back({laid->point, -1});
    station.laid_cover_sd = std::sqrt(std::max(0.0, model().variance_of(there.terms)));
}

}  // namespace fallwright::drain
