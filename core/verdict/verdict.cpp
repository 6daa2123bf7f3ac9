#include "verdict/verdict.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "base/stable_order.h"
#include "fall/dig_to.h"
#include "verdict/joint.h"

namespace fallwright {

namespace {

// What may lie under the ground on a line, besides its own layers.
constexpr std::array<std::string_view, 5> under_pipes = {"collar", "crown", "invert", "bed", "formation"};

// What a station may have of certainty before it no longer counts among all: of all of them together, and of
// one.
constexpr double surely_within = 1e-7, surely_outside = 1e-6;

double open_or(const Maybe& limit, double infinite) {
    return limit.has() ? limit.value : infinite;
}

Limits level_limits(const Tolerance& tolerance) {
    const Limits open;
    return {open_or(tolerance.below, open.below), open_or(tolerance.above, open.above)};
}

Limits fall_limits(const Tolerance& tolerance) {
    const Limits open;
    return {open_or(tolerance.fall_min, open.below), open_or(tolerance.fall_max, open.above)};
}

bool judges_levels(const Tolerance& tolerance) {
    return tolerance.below.has() || tolerance.above.has();
}

// Both as rounded for the result. Infinite limits stay so.
bool plainly_within(double x, const Limits& limits, int places) {
    const auto shown = [places](double v) { return std::isfinite(v) ? rounded_to(v, places) : v; };
    return shown(x) >= shown(limits.below) && shown(x) <= shown(limits.above);
}

std::vector<std::uint32_t> relaids_by_time(const Book& book, NameId line) {
    std::vector<std::uint32_t> found;
    for (std::uint32_t i = 0; i < book.relaids.size(); ++i) {
        if (book.relaids[i].line == line) found.push_back(i);
    }
    sort_stably(found, [&book](std::uint32_t a, std::uint32_t b) {
        const std::uint32_t x = book.relaids[a].entry;
        const std::uint32_t y = book.relaids[b].entry;
        return book.entries[x].at != book.entries[y].at ? book.entries[x].at < book.entries[y].at : x < y;
    });
    return found;
}

}  // namespace

Judgement judge_figure(double x, double sd, const Limits& limits, double confidence, int places,
                       double unit) {
    Judgement judged;
    if (std::isnan(x) || std::isnan(sd)) return judged;
    judged.plain_within = plainly_within(x / unit, {limits.below / unit, limits.above / unit}, places);
    judged.probability = sd == 0 ? (judged.plain_within ? 1 : 0) : probability_within(x, sd, limits);
    judged.verdict = verdict_of(judged.probability, confidence);
    return judged;
}

LineJudge::LineJudge(const Book& book, const Design& design, const LineFalls& found, const Model& model)
    : book_(book),
      design_(design),
      found_(found),
      model_(model),
      ground_(book, design.any() ? found : LineFalls(), model),
      level_of_(levels_found(model)),
      confidence_(confidence_of(book)),
      relaids_(relaids_by_time(book, design.line().name)) {
    for (const Tolerance& tolerance : book.tolerances) {
        if (tolerance.line == design.line().name) tolerances_.push_back(&tolerance);
    }
}

const Tolerance* LineJudge::tolerance_of(std::string_view what) const {
    for (const Tolerance* tolerance : tolerances_) {
        if (book_.names.text(tolerance->what) == what) return tolerance;
    }
    return what == "laid in" || what == "laid out" ? tolerance_of("laid") : nullptr;
}

LineJudge::Deviation LineJudge::deviation_of(const Station& station, std::int32_t point) const {
    const DesignLevel wanted = design_.level(book_.names.text(station.what), station.ch, station.off);
    Deviation deviation;
    deviation.design = wanted.value(level_of_);
    deviation.value = model_.levels[static_cast<std::size_t>(point)].level - deviation.design;
    if (std::isnan(deviation.value)) return deviation;
    deviation.sum.push_back({point, 1});
    for (const Hang& hang : wanted.hangs)
        deviation.sum.push_back({model_.points.at(hang.point), -hang.coefficient});
    return deviation;
}

double LineJudge::sd_of(const Station& station, const Deviation& deviation) const {
    if (deviation.sum.size() == 1) return model_.levels[static_cast<std::size_t>(station.point)].sd;
    return std::sqrt(std::max(0.0, model_.variance_of(deviation.sum)));
}

Judgement LineJudge::judge_level(const Station& station, const Deviation& deviation) const {
    const Tolerance* tolerance = tolerance_of(book_.names.text(station.what));
    if (tolerance == nullptr || !judges_levels(*tolerance) || std::isnan(deviation.value)) return {};
    if (tolerance->from_memory.levels) return {};
    return judge_figure(deviation.value, sd_of(station, deviation), level_limits(*tolerance), confidence_,
                        length_places, book_.metres_per_unit());
}

// What is there, down to the surface that the digging goes to and to each one on the way.
void LineJudge::look_down(const Station& station, StationVerdict& verdict) const {
    const DigTo to = dig_to(design_, station.ch, station.off);
    verdict.dig_to = to.what;
    const double there = ground_.at(station.ch, station.off).level;
    verdict.dig = there - to.level.value(level_of_);
    if (std::isnan(there)) return;
    const auto add = [&](std::string_view what) {
        const double depth = there - design_.level(what, station.ch, station.off).value(level_of_);
        const auto is_it = [what](const Below& below) { return below.what == what; };
        const bool listed = std::any_of(verdict.below.begin(), verdict.below.end(), is_it);
        if (!std::isnan(depth) && !listed) verdict.below.push_back({std::string(what), depth});
    };
    add(profile_surface(design_.line()));
    for (const Layer& layer : design_.line().layers) add(book_.names.text(layer.what));
    for (const std::string_view what : under_pipes) {
        if (what != "invert" || profile_surface(design_.line()) == what) add(what);
    }
    sort_stably(verdict.below, [](const Below& a, const Below& b) { return a.depth < b.depth; });
}

// Readings of a stretch that was relaid since have names of their own, counted from the oldest surface.
void LineJudge::look_back(const Station& station, StationVerdict& verdict) const {
    if (relaids_.empty()) return;
    const std::string name = book_.name(model_.points.name(static_cast<std::size_t>(station.point)));
    int surface = 0;
    for (const std::uint32_t at : relaids_) {
        const Relaid& relaid = book_.relaids[at];
        const bool reached = station.ch >= relaid.from.or_else(station.ch) - least_chainage &&
                             station.ch <= relaid.to.or_else(station.ch) + least_chainage;
        if (relaid.what != station.what || !reached) continue;
        const NameId older = book_.names.find(name + " (" + std::to_string(++surface) + ")");
        const std::int32_t point = older == no_name ? -1 : model_.points.at(older);
        if (point < 0) continue;
        const PointLevel& level = model_.levels[static_cast<std::size_t>(point)];
        verdict.earlier.push_back(
            {older, level.level, level.sd, deviation_of(station, point).value, relaid.entry});
    }
}

StationVerdict LineJudge::judge(const Station& station) const {
    StationVerdict verdict;
    verdict.design = verdict.deviation = verdict.dig = NAN;
    if (idle()) return verdict;
    const Deviation deviation = deviation_of(station, station.point);
    verdict.design = deviation.design;
    verdict.deviation = deviation.value;
    verdict.judged = judge_level(station, deviation);
    if (design_.any()) look_down(station, verdict);
    look_back(station, verdict);
    return verdict;
}

FallVerdict LineJudge::judge(const FoundFall& fall) const {
    FallVerdict verdict;
    const auto level = [this](const Station& station) {
        return design_.level(book_.names.text(station.what), station.ch, station.off);
    };
    const DesignLevel rise = combined(1, level(*fall.end), -1, level(*fall.start));
    const double sign = design_.runs_with_chainage(level_of_) ? -1 : 1;
    verdict.design = sign * rise.value(level_of_) / (fall.to - fall.from);
    const bool slopes = !std::isnan(verdict.design) && rounded_to(verdict.design, gradient_places) != 0;
    verdict.backfall_probability =
        slopes ? probability_within(fall.gradient, fall.sd, {Limits().below, 0}) : NAN;
    const Tolerance* tolerance = tolerance_of(fall.what);
    if (tolerance == nullptr || (!tolerance->fall_min.has() && !tolerance->fall_max.has())) return verdict;
    if (tolerance->from_memory.falls) return verdict;
    verdict.judged =
        judge_figure(fall.gradient, fall.sd, fall_limits(*tolerance), confidence_, gradient_places);
    return verdict;
}

std::vector<AllWithin> LineJudge::all_within() const {
    std::vector<AllWithin> found;
    for (const Tolerance* tolerance : tolerances_) {
        const std::string_view what = book_.names.text(tolerance->what);
        if (!judges_levels(*tolerance) || tolerance_of(what) != tolerance) continue;
        const double probability = all_within(*tolerance);
        if (!std::isnan(probability)) found.push_back({what, probability});
    }
    return found;
}

// NaN where it tests nothing. Parts are only asked for where they can matter: they are the larger cost.
double LineJudge::all_within(const Tolerance& tolerance) const {
    const Limits limits = level_limits(tolerance);
    const double surely = surely_within / static_cast<double>(found_.stations.size());
    std::vector<LimitedSum> sums;
    bool hopeless = false;
    std::size_t tested = 0;
    for (const Station& station : found_.stations) {
        if (tolerance_of(book_.names.text(station.what)) != &tolerance) continue;
        const Deviation deviation = deviation_of(station, station.point);
        const Judgement judged = judge_level(station, deviation);
        if (judged.verdict == Verdict::Untested) continue;
        ++tested;
        hopeless = hopeless || judged.probability < surely_outside;
        if (hopeless || 1 - judged.probability < surely) continue;
        sums.push_back({{limits.below - deviation.value, limits.above - deviation.value},
                        model_.parts_of(deviation.sum)});
    }
    if (tested == 0) return NAN;
    return hopeless ? 0 : joint_probability(std::move(sums));
}

}  // namespace fallwright
