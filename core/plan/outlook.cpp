#include "plan/outlook.h"

#include <algorithm>
#include <set>
#include <utility>

#include "fall/falls.h"
#include "plan/air.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

bool is_benchmark(const Book& book, NameId point) {
    return std::any_of(book.benchmarks.begin(), book.benchmarks.end(),
                       [point](const Benchmark& benchmark) { return benchmark.point == point; });
}

constexpr double detectable_factor = 4.13;  // contract section 2: 0.1 % false alarms, 80 % power

}  // namespace

double least_slip(double sd, double redundancy) {
    return redundancy > 0 ? detectable_factor * sd / std::sqrt(redundancy) : NAN;
}

Guard guard_of(const Model& model, std::size_t row) {
    const double sd = model.problem.sd[row];
    const double redundancy = model.solution.redundancy[row];
    return {sd, redundancy, least_slip(sd, redundancy)};
}

Assessor::Assessor(Workbook& work, const PlanWish& wish, const Layout& layout) : work_(work) {
    const Book& book = work.basis().book;
    const NameId line = wish.line == not_named ? no_name : book.lines[wish.line].name;
    const auto on_line = [&](const PlannedSight& sight) {
        return sight.as.line != no_name && (line == no_name || sight.as.line == line);
    };
    const bool lines = std::any_of(layout.sights.begin(), layout.sights.end(), on_line);
    std::set<NameId> seen;
    for (const PlannedSight& sight : layout.sights) {
        if (lines ? !on_line(sight) : is_benchmark(book, sight.as.point)) continue;
        if (seen.insert(sight.as.point).second) stations_.push_back(station_of(wish, sight.as));
    }
    weigh();
}

StationOutlook Assessor::station_of(const PlanWish& wish, const Reading& reading) const {
    const PlanBasis& basis = work_.basis();
    StationOutlook station;
    station.point = reading.point;
    station.line = reading.line;
    station.what = reading.what;
    station.ch = reading.ch;
    station.off = reading.off;
    station.goal.confidence = confidence_of(basis.book);
    if (wish.tolerance.has()) station.goal.limits = {-wish.tolerance.value, wish.tolerance.value};
    const std::int32_t line = reading.line == no_name ? -1 : ByName(basis.book.lines)(reading.line);
    if (wish.tolerance.has() || line < 0) return station;
    const auto at = static_cast<std::size_t>(line);
    const LineJudge judge(basis.book, basis.designs.lines[at], basis.found[at], basis.model);
    const Tolerance* tolerance = judge.tolerance_of(work_.book().names.text(reading.what));
    if (tolerance == nullptr) return station;
    if (tolerance->below.has()) station.goal.limits.below = tolerance->below.value;
    if (tolerance->above.has()) station.goal.limits.above = tolerance->above.value;
    return station;
}

// A station with a wider tolerance counts less.
void Assessor::weigh() {
    double tightest = NAN;
    for (const StationOutlook& station : stations_) tightest = std::fmin(tightest, station.goal.half_width());
    for (const StationOutlook& station : stations_) {
        const double own = station.goal.half_width();
        weights_.push_back(std::isnan(own) || std::isnan(tightest) ? 1 : tightest / own);
    }
}

double Assessor::wanted_sd() const {
    double wanted = NAN;
    for (const StationOutlook& station : stations_) wanted = std::fmin(wanted, station.goal.half_sd());
    return wanted;
}

Score Assessor::score_of(const Model& model) const {
    Score score;
    double sum = 0;
    double worst = -1;
    for (std::size_t i = 0; i < stations_.size(); ++i) {
        const std::int32_t point = model.points.at(stations_[i].point);
        const double sd = point < 0 ? NAN : weights_[i] * model.levels[static_cast<std::size_t>(point)].sd;
        if (std::isnan(sd)) return {};
        sum += sd;
        if (sd > worst) {
            worst = sd;
            score.worst_station = i;
        }
    }
    if (stations_.empty()) return score;
    score.worst = worst;
    score.mean = sum / static_cast<double>(stations_.size());
    return score;
}

Score Assessor::score(const Layout& layout) {
    last_ = work_.solve(layout);
    ++solved_;
    return score_of(*last_.model);
}

void Assessor::fill_sights(const Layout& layout, Outlook& outlook) const {
    outlook.setups.resize(layout.stands.size());
    for (std::size_t i = 0; i < layout.sights.size(); ++i) {
        SightOutlook sight;
        const SightPlace& place = last_.where.readings[last_.first + i];
        sight.d = place.d;
        sight.assumed_d = place.assumed_d;
        const std::int32_t row = last_.model->sights.row_of[last_.first + i];
        if (row >= 0) {
            const Guard guard = guard_of(*last_.model, static_cast<std::size_t>(row));
            sight.sd = guard.sd;
            sight.redundancy = guard.redundancy;
            sight.detectable = guard.detectable;
        }
        SetupOutlook& setup = outlook.setups[layout.sights[i].stand];
        ++setup.readings;
        if (!place.assumed_d) {
            setup.shortest = std::fmin(setup.shortest, place.d);
            setup.longest = std::fmax(setup.longest, place.d);
        }
        outlook.sights.push_back(sight);
    }
    for (SetupOutlook& setup : outlook.setups)
        setup.hot_ground = hot_ground_lift(setup.shortest, setup.longest);
}

// As found or given; else as wanted; NaN where neither is known.
double Assessor::level_of(const Reading& reading) const {
    const PlanBasis& basis = work_.basis();
    const std::int32_t point = basis.model.points.at(reading.point);
    if (point >= 0) {
        const PointLevel& found = basis.model.levels[static_cast<std::size_t>(point)];
        if (!std::isnan(found.sd)) return found.level;
    }
    const std::int32_t line = reading.line == no_name ? -1 : ByName(basis.book.lines)(reading.line);
    if (line < 0) return NAN;
    const Design& design = basis.designs.lines[static_cast<std::size_t>(line)];
    return design.level(work_.book().names.text(reading.what), reading.ch, reading.off)
        .value(levels_found(basis.model));
}

void Assessor::fill_spreads(const Layout& layout, Outlook& outlook) const {
    std::vector<double> low(layout.stands.size(), NAN), high = low;
    for (const PlannedSight& sight : layout.sights) {
        const std::int32_t setup = layout.stands[sight.stand].setup;
        if (setup >= 0 && !last_.model->sights.setups[static_cast<std::size_t>(setup)].level()) continue;
        const double level = level_of(sight.as);
        low[sight.stand] = std::fmin(low[sight.stand], level);
        high[sight.stand] = std::fmax(high[sight.stand], level);
    }
    for (std::size_t i = 0; i < low.size(); ++i) outlook.setups[i].spread = high[i] - low[i];
}

void Assessor::fill_falls(Outlook& outlook) const {
    const std::vector<LineFalls> found = find_falls(work_.book(), *last_.model);
    std::set<std::pair<NameId, NameId>> planned;
    for (const StationOutlook& station : stations_) planned.emplace(station.line, station.what);
    for (std::size_t line = 0; line < found.size(); ++line) {
        for (const Fit& fit : found[line].fits) {
            if (planned.count({work_.book().lines[line].name, fit.what}) > 0)
                outlook.falls.push_back({line, fit.what, fit.sd});
        }
    }
}

Outlook Assessor::outlook(const Layout& layout) {
    const Score score = this->score(layout);
    Outlook outlook;
    outlook.worst = score.worst;
    outlook.mean = score.mean;
    outlook.effort = layout.effort();
    outlook.stations = stations_;
    for (StationOutlook& station : outlook.stations) {
        const std::int32_t point = last_.model->points.at(station.point);
        station.sd = point < 0 ? NAN : last_.model->levels[static_cast<std::size_t>(point)].sd;
        station.can = provable(station.goal, station.sd);
    }
    if (score.known()) outlook.worst_point = stations_[score.worst_station].point;
    fill_sights(layout, outlook);
    fill_spreads(layout, outlook);
    fill_falls(outlook);
    return outlook;
}

}  // namespace fallwright
