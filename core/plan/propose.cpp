#include "plan/propose.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "setout/setout.h"
#include "where/plan_line.h"

namespace fallwright {

namespace {

constexpr double usual_every = 10;          // metres between stations
constexpr double usual_every_feet = 9.144;  // 30 ft
constexpr double beside = 3;                // metres to the right of the line, so that the work goes on
constexpr double least_spacing = 10;        // metres between places
constexpr double far_off = 60;  // metres from a benchmark to the line that ask for a place on the way

class LineStations {
  public:
    LineStations(Workbook& work, const PlanWish& wish, Findings& findings)
        : work_(work),
          basis_(work.basis()),
          wish_(wish),
          line_(basis_.book.lines[wish.line]),
          plan_(line_, static_cast<std::int32_t>(wish.line)),
          findings_(findings) {
        const bool feet = basis_.book.unit == Unit::Foot;
        every_ = wish.every.or_else(feet ? usual_every_feet : usual_every);
        what_ = wish.what.empty() ? judged_surface() : wish.what;
    }

    std::vector<PlannedSight> run() {
        if (basis_.designs.lines[wish_.line].any()) {
            of_design();
        } else {
            of_plan();
        }
        return std::move(sights_);
    }

  private:
    // The first with a tolerance of levels; else the one a staff is read on.
    std::string judged_surface() const {
        for (const Tolerance& tolerance : basis_.book.tolerances) {
            const bool levels = tolerance.below.has() || tolerance.above.has();
            if (tolerance.line == line_.name && levels) return basis_.book.name(tolerance.what);
        }
        return staff_surface(line_);
    }

    void of_design() {
        const SetoutBasis basis{basis_.book, basis_.designs, basis_.where, basis_.model, basis_.found};
        const Setout table = set_out(basis, {wish_.line, no_setup, {every_}, {what_}});
        for (const Finding& found : table.findings) {
            if (catalogue(found.code).severity == Severity::Error) findings_.push_back(found);
        }
        for (const SetoutRow& row : table.tables.front().rows) add(row.ch, row.off, row.what);
    }

    // A line that nobody has designed yet: from the first to the last point of its plan.
    void of_plan() {
        double length = 0;
        for (std::size_t i = 1; i < line_.plan.size(); ++i) {
            const double e = line_.plan[i][0] - line_.plan[i - 1][0];
            const double n = line_.plan[i][1] - line_.plan[i - 1][1];
            length += std::sqrt(e * e + n * n);
        }
        const double count = std::floor(length / every_);
        if (length == 0 || count > static_cast<double>(most_planned_stations)) return;
        for (double i = 0; i <= count; ++i) add(line_.start + i * every_, 0, what_);
        if (length - count * every_ > least_spacing / every_) add(line_.start + length, 0, what_);
    }

    void add(double ch, double off, const std::string& what) {
        if (sights_.size() >= most_planned_stations) return;
        PlannedSight sight;
        sight.as.line = line_.name;
        sight.as.what = work_.intern(what);
        sight.as.ch = ch;
        sight.as.off = off;
        const Book& book = basis_.book;
        sight.as.point =
            work_.intern(line_point_name(book.name(line_.name), book.in_unit(ch), book.in_unit(off), what));
        sight.figure = usual_figure;
        sight.spot = plan_.at(ch, off);
        sights_.push_back(std::move(sight));
    }

    Workbook& work_;
    const PlanBasis& basis_;
    const PlanWish& wish_;
    const LineEntry& line_;
    PlanLine plan_;
    Findings& findings_;
    double every_ = 0;
    std::string what_;
    std::vector<PlannedSight> sights_;
};

// The nearest of the spots; not_named where none is in the same frame.
std::size_t nearest_of(const std::vector<Spot>& spots, const Spot& to) {
    std::size_t nearest = not_named;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const double distance = distance_between(spots[i], to);
        if (std::isnan(distance)) continue;
        if (nearest == not_named || distance < distance_between(spots[nearest], to)) nearest = i;
    }
    return nearest;
}

// Evenly along a line between two chainages.
std::vector<Spot> along(const PlanLine& plan, double from, double to) {
    const double most = static_cast<double>(most_places);
    const double count = std::fmin(most, std::fmax(1, std::floor((to - from) / least_spacing)));
    std::vector<Spot> places;
    for (double i = 0; i < count; ++i)
        places.push_back(plan.at(from + (i + 0.5) / count * (to - from), beside));
    return places;
}

// Midway from the benchmark nearest to the line, if that is far from every place; it takes the place of the
// one farthest from it.
void bridge_to_benchmark(const PlanBasis& basis, std::vector<Spot>& places) {
    Spot benchmark, place;
    for (const Benchmark& each : basis.book.benchmarks) {
        const Spot& spot = basis.where.points[each.point];
        const std::size_t near = nearest_of(places, spot);
        if (near == not_named) continue;
        if (benchmark.known && distance_between(benchmark, place) <= distance_between(spot, places[near]))
            continue;
        benchmark = spot;
        place = places[near];
    }
    if (!benchmark.known || distance_between(benchmark, place) <= far_off) return;
    if (places.size() == most_places) {
        const auto farther = [&](const Spot& a, const Spot& b) {
            return distance_between(a, benchmark) < distance_between(b, benchmark);
        };
        places.erase(std::max_element(places.begin(), places.end(), farther));
    }
    const bool first =
        distance_between(places.front(), benchmark) <= distance_between(places.back(), benchmark);
    places.insert(first ? places.begin() : places.end(), midway(benchmark, place));
}

}  // namespace

std::vector<PlannedSight> stations_of_line(Workbook& work, const PlanWish& wish, Findings& findings) {
    return LineStations(work, wish, findings).run();
}

std::vector<Spot> places_beside(const PlanBasis& basis, const PlanWish& wish,
                                const std::vector<PlannedSight>& stations) {
    double from = NAN, to = NAN;
    for (const PlannedSight& station : stations) {
        from = std::fmin(from, station.as.ch);
        to = std::fmax(to, station.as.ch);
    }
    const PlanLine plan(basis.book.lines[wish.line], static_cast<std::int32_t>(wish.line));
    std::vector<Spot> places = along(plan, from, to);
    bridge_to_benchmark(basis, places);
    return places;
}

std::vector<Spot> places_of_layout(const PlanBasis& basis, const Layout& layout) {
    const ByName lines(basis.book.lines);
    NameId name = no_name;
    double from = NAN, to = NAN;
    for (const PlannedSight& sight : layout.sights) {
        if (sight.as.line == no_name || (name != no_name && sight.as.line != name)) continue;
        name = sight.as.line;
        from = std::fmin(from, sight.as.ch);
        to = std::fmax(to, sight.as.ch);
    }
    std::vector<Spot> places;
    if (name != no_name && to > from) {
        const std::int32_t line = lines(name);
        places = along(PlanLine(basis.book.lines[static_cast<std::size_t>(line)], line), from, to);
        return places;
    }
    for (std::size_t i = 1; i < layout.stands.size() && places.size() < most_places; ++i) {
        const Spot between = midway(layout.stands[i - 1].spot, layout.stands[i].spot);
        if (between.known) places.push_back(between);
    }
    return places;
}

Layout first_layout(Grounds& grounds, const std::vector<PlannedSight>& stations, std::size_t count) {
    Layout layout;
    const double share = static_cast<double>(grounds.places.size()) / static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i)
        add_stand(grounds, layout, static_cast<std::size_t>((static_cast<double>(i) + 0.5) * share));
    const PlannedSight* benchmark = nullptr;
    double least = NAN;
    for (const PlannedSight& each : grounds.benchmarks) {
        const std::size_t stand = nearest_stand(layout, each.spot);
        if (stand == not_named) continue;
        const double distance = distance_between(layout.stands[stand].spot, each.spot);
        if (benchmark != nullptr && distance >= least) continue;
        benchmark = &each;
        least = distance;
    }
    if (benchmark == nullptr) return {};
    layout.sights.push_back(
        sight_to(layout, nearest_stand(layout, benchmark->spot), benchmark->as.point, benchmark->spot));
    for (std::size_t i = 1; i < count; ++i) join_stands(grounds, layout, i - 1, i);
    for (const PlannedSight& station : stations) {
        PlannedSight sight = station;
        sight.stand = nearest_stand(layout, station.spot);
        if (sight.stand == not_named) return {};
        layout.sights.push_back(std::move(sight));
    }
    return layout;
}

}  // namespace fallwright
