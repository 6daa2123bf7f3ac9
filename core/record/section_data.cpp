#include "record/section_data.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/print.h"
#include "base/stable_order.h"
#include "fall/dig_to.h"
#include "fall/falls.h"
#include "fall/ground_along.h"
#include "setout/stations.h"

namespace fallwright::record {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr std::size_t most_surfaces = 3;

bool close(double a, double b) {
    return std::fabs(a - b) < least_chainage;
}

// laid in and laid out are the one surface "laid".
std::string surface_name(std::string_view what) {
    return what == "laid in" || what == "laid out" ? "laid" : std::string(what);
}

FoundSurface& surface_of(std::vector<FoundSurface>& all, const std::string& what, double off) {
    for (FoundSurface& each : all) {
        if (each.what == what && rounded_to(each.off, 3) == rounded_to(off, 3)) return each;
    }
    all.push_back({what, std::fabs(off) < least_offset ? 0 : off, {}, nullptr, false});
    return all.back();
}

Found found_at(const Evaluation& evaluation, const Station& station, const LineJudge& judge) {
    const PointLevel& level = evaluation.model->levels[static_cast<std::size_t>(station.point)];
    const StationVerdict verdict = judge.judge(station);
    Found found;
    found.ch = station.ch;
    found.off = station.off;
    found.level = level.level;
    found.sd = level.sd;
    found.design = verdict.design;
    found.deviation = verdict.deviation;
    found.off_fit = station.off_fit;
    found.judged = verdict.judged;
    found.point =
        evaluation.book->name(evaluation.model->points.name(static_cast<std::size_t>(station.point)));
    return found;
}

class Gatherer {
  public:
    Gatherer(const Evaluation& evaluation, std::size_t line)
        : evaluation_(evaluation),
          index_(line),
          ground_(*evaluation.book, evaluation.lines[line], *evaluation.model) {
        data_.book = evaluation.book.get();
        data_.design = &evaluation.designs.lines[line];
        data_.line = &data_.book->lines[line];
        data_.name = data_.book->name(data_.line->name);
        data_.profile = std::string(profile_surface(*data_.line));
        data_.level_of = levels_found(*evaluation.model);
        data_.with_chainage = data_.design->runs_with_chainage(data_.level_of);
    }

    SectionData run() {
        for (FoundSurface& each : found_surfaces(evaluation_, index_)) {
            if (each.off == 0 && data_.found.size() < most_surfaces) data_.found.push_back(std::move(each));
        }
        for (const FoundSurface& each : data_.found) data_.surfaces.push_back(each.what);
        for (const Fit& fit : evaluation_.lines[index_].fits) {
            if (!data_.surfaces.empty() && data_.book->names.text(fit.what) == data_.surfaces.front())
                data_.fitted = fit.gradient;
        }
        if (const drain::Run* drain = run_of_line()) {
            for (const drain::RunStation& station : drain->stations) add(station);
            add_beyond();
        } else {
            add_own();
        }
        sort_stably(data_.columns,
                    [](const Column& a, const Column& b) { return a.ch < b.ch - least_chainage; });
        for (Column& column : data_.columns) fill_found(column);
        return std::move(data_);
    }

  private:
    const drain::Run* run_of_line() const {
        for (const drain::Run& run : evaluation_.drains.runs) {
            if (run.line == index_) return &run;
        }
        return nullptr;
    }

    void add(const drain::RunStation& station) {
        Column column;
        column.ch = station.ch;
        if (station.what == "laid in") column.side = "in";
        if (station.what == "laid out") column.side = "out";
        column.ground = station.ground;
        column.design = station.invert;
        column.depth = station.depth;
        column.cover = station.cover;
        data_.columns.push_back(std::move(column));
    }

    bool has_column(double ch) const {
        return std::any_of(data_.columns.begin(), data_.columns.end(),
                           [ch](const Column& column) { return close(column.ch, ch); });
    }

    // Where something was read beyond the ends of the run.
    void add_beyond() {
        std::vector<double> more = ground_.chainages();
        for (const FoundSurface& each : data_.found) {
            for (const Found& found : each.found) more.push_back(found.ch);
        }
        double from = infinite, to = -infinite;
        if (!data_.columns.empty()) {
            from = data_.columns.front().ch;
            to = data_.columns.back().ch;
        }
        for (const double ch : more) {
            const bool beyond = ch < from - least_chainage || ch > to + least_chainage;
            if ((beyond || data_.columns.empty()) && !has_column(ch)) add_plain(ch);
        }
    }

    void add_plain(double ch) {
        Column column;
        column.ch = ch;
        column.ground = ground_.at(ch, 0).level;
        const DesignSurface profile = data_.design->heights().find(data_.profile);
        const auto level = [&](Side side) {
            return data_.design->level(profile, ch, 0, side).value(data_.level_of);
        };
        column.design = data_.design->any() ? level(Side::After) : NAN;
        if (data_.design->any() && std::isnan(column.design)) column.design = level(Side::Before);
        data_.columns.push_back(std::move(column));
    }

    void add_own() {
        std::vector<double> all = ground_.chainages();
        for (const FoundSurface& each : data_.found) {
            for (const Found& found : each.found) all.push_back(found.ch);
        }
        if (data_.design->any()) {
            for (const OwnPoint& own : data_.design->own_points(data_.level_of)) all.push_back(own.ch);
        }
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end(), close), all.end());
        for (const double ch : all) add_plain(ch);
    }

    void fill_found(Column& column) const {
        column.found.resize(data_.found.size());
        for (std::size_t i = 0; i < data_.found.size(); ++i) {
            const std::vector<Found>& all = data_.found[i].found;
            auto at = std::lower_bound(all.begin(), all.end(), column.ch - least_chainage,
                                       [](const Found& found, double ch) { return found.ch < ch; });
            const Found* chosen = nullptr;
            for (; at != all.end() && close(at->ch, column.ch); ++at) {
                if (!at->any()) continue;
                const bool own_side = !column.side.empty() && at->point.ends_with(" laid " + column.side);
                if (chosen == nullptr || own_side) chosen = &*at;
            }
            if (chosen != nullptr) column.found[i] = *chosen;
        }
    }

    const Evaluation& evaluation_;
    std::size_t index_;
    GroundAlong ground_;
    SectionData data_;
};

}  // namespace

std::vector<FoundSurface> found_surfaces(const Evaluation& evaluation, std::size_t line) {
    const Book& book = *evaluation.book;
    const LineJudge judge(book, evaluation.designs.lines[line], evaluation.lines[line], *evaluation.model);
    std::vector<FoundSurface> all;
    for (const Station& station : evaluation.lines[line].stations) {
        const std::string what = surface_name(book.names.text(station.what));
        if (what == "ground" || what == "peg") continue;
        Found found = found_at(evaluation, station, judge);
        if (!found.any()) continue;
        FoundSurface& surface = surface_of(all, what, station.off);
        surface.designed = surface.designed || !std::isnan(found.deviation);
        surface.found.push_back(std::move(found));
    }
    for (FoundSurface& surface : all) {
        surface.tolerance = judge.tolerance_of(surface.what);
        sort_stably(surface.found, [](const Found& a, const Found& b) { return a.ch < b.ch; });
    }
    sort_stably(all, [](const FoundSurface& a, const FoundSurface& b) { return a.off == 0 && b.off != 0; });
    return all;
}

SectionData section_data(const Evaluation& evaluation, std::size_t line) {
    return Gatherer(evaluation, line).run();
}

}  // namespace fallwright::record
