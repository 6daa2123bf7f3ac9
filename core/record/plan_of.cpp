#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "base/print.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/plan_frame.h"
#include "record/scales.h"
#include "record/words.h"
#include "where/plan_line.h"

namespace fallwright::record {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
using sheet::Anchor;
using sheet::At;
using sheet::Dash;
using sheet::Ink;

constexpr std::size_t most_sights = 1500, most_marks = 6000;
constexpr double tick_apart = 14, tick = 1.3, axis_length = 12, point_size = 2.2, station_size = 1;
constexpr double least_sight = 0.3;  // mm

struct PlanPoint {
    NameId name = no_name;
    Spot spot;
    bool benchmark = false, on_line = false;
};

// A line as it runs: its corners, and the chainages from which to which it is drawn.
struct PlanRun {
    std::size_t line = 0;
    double from = 0, to = 0;
    std::vector<Spot> corners;
};

struct PlanTripod {
    std::string names;
    Spot spot;
    Heading heading;
};

class Plan {
  public:
    Plan(const Evaluation& evaluation, std::int32_t frame, Room room)
        : evaluation_(evaluation), book_(*evaluation.book), frame_(frame), room_(room) {
        gather_lines();
        gather_points();
        gather_tripods();
        gather_sights();
    }

    bool any() const { return extent_.any(); }

    sheet::Figure draw() {
        Drawing drawing(room_.width, room_.height + 200);
        const bool on_grid = frame_ == 0;
        const std::string title = on_grid ? "Plan" : "Plan of " + name_of_frame() + " in its own frame";
        const double head = draw_head(drawing, title, facts(on_grid), book_.title);
        const PlanFrame frame(extent_, head + 1, room_.width, std::max(room_.height - head - 28, 60.0),
                              book_.unit);
        frame.draw(drawing, book_, on_grid);
        // What is seen first is drawn last; what matters most finds its place for a label first.
        keep_marks_clear(drawing, frame);
        draw_sights(drawing, frame);
        draw_lines(drawing, frame);
        draw_stations(drawing, frame);
        draw_tripods(drawing, frame);
        draw_points(drawing, frame);
        draw_chainages(drawing, frame);
        double y = frame.draw_scale_bar(drawing, book_, frame.box().bottom + 4);
        drawing.place(label({}, "Scale " + scale_words(frame.scale(), book_.unit), usual_type),
                      {{{frame.box().right, y - 1.5}, Anchor::End}});
        y = draw_legend(drawing, legend(), {0, y + 1}, room_.width);
        drawing.cut(y + 0.5);
        return drawing.take(title, said(frame));
    }

  private:
    std::string name_of_frame() const {
        return book_.name(book_.lines[static_cast<std::size_t>(frame_ - 1)].name);
    }
    bool here(const Spot& spot) const { return spot.known && spot.frame == frame_; }
    void take(const Spot& spot) {
        if (here(spot)) extent_.take(spot.e, spot.n);
    }

    std::string facts(bool on_grid) const {
        std::string words = on_grid ? "Grid in " + unit_words(book_) + ", north is up."
                                    : "The line has no plan: chainage is up, offsets to the right, in " +
                                          unit_words(book_) + ".";
        if (sights_left_out_) words += " Sights are left out, there are too many of them.";
        return words;
    }

    // From the profile, the stations and the plan itself.
    void gather_lines() {
        for (std::size_t i = 0; i < book_.lines.size(); ++i) {
            const LineEntry& line = book_.lines[i];
            const PlanLine places(line, static_cast<std::int32_t>(i));
            if (!here(places.at(0, 0))) continue;
            PlanRun run = run_of(i, places);
            if (run.corners.size() < 2) continue;
            for (const Spot& corner : run.corners) take(corner);
            runs_.push_back(std::move(run));
        }
    }

    PlanRun run_of(std::size_t i, const PlanLine& places) const {
        const LineEntry& line = book_.lines[i];
        const Design& design = evaluation_.designs.lines[i];
        PlanRun run;
        run.line = i;
        double low = infinite, high = -infinite;
        const auto reach = [&](double ch) {
            low = std::min(low, ch);
            high = std::max(high, ch);
        };
        if (design.any()) {
            reach(design.profile().from());
            reach(design.profile().to());
        }
        for (const Station& station : evaluation_.lines[i].stations) reach(station.ch);
        std::vector<std::pair<double, Spot>> corners;
        double ch = line.start;
        for (std::size_t k = 0; frame_ == 0 && k < line.plan.size(); ++k) {
            if (k > 0) {
                const double de = line.plan[k][0] - line.plan[k - 1][0],
                             dn = line.plan[k][1] - line.plan[k - 1][1];
                ch += std::sqrt(de * de + dn * dn);
            }
            reach(ch);
            corners.emplace_back(ch, Spot{true, 0, line.plan[k][0], line.plan[k][1]});
        }
        if (!(low < high)) return run;
        run.from = low;
        run.to = high;
        run.corners.push_back(places.at(low, 0));
        for (const auto& [at, spot] : corners) {
            if (at > low && at < high) run.corners.push_back(spot);
        }
        run.corners.push_back(places.at(high, 0));
        return run;
    }

    void gather_points() {
        std::vector<bool> on_line(book_.names.size(), false), fixed(book_.names.size(), false),
            listed(book_.names.size(), false);
        for (const Reading& reading : book_.readings) {
            if (reading.line != no_name) on_line[reading.point] = true;
        }
        for (const Benchmark& benchmark : book_.benchmarks) fixed[benchmark.point] = true;
        const auto add = [&](NameId name) {
            if (name == no_name || name >= evaluation_.where.points.size() || listed[name]) return;
            const Spot& spot = evaluation_.where.points[name];
            if (!here(spot)) return;
            listed[name] = true;
            points_.push_back({name, spot, fixed[name], on_line[name] && !fixed[name]});
            take(spot);
        };
        for (std::size_t i = 0; i < evaluation_.model->points.size(); ++i)
            add(evaluation_.model->points.name(i));
        for (const PlaceEntry& place : book_.places) add(place.point);
    }

    // Set-ups on one tripod once, with all their names.
    void gather_tripods() {
        tripod_at_.assign(book_.setups.size(), SIZE_MAX);
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            const auto tripod = static_cast<std::size_t>(evaluation_.where.tripods[i]);
            if (!here(evaluation_.where.setups[i])) continue;
            if (tripod_at_[tripod] == SIZE_MAX) {
                tripod_at_[tripod] = tripods_.size();
                tripods_.push_back({"", evaluation_.where.setups[i], evaluation_.where.headings[i]});
                take(evaluation_.where.setups[i]);
            }
            tripod_at_[i] = tripod_at_[tripod];
            std::string& names = tripods_[tripod_at_[i]].names;
            names += (names.empty() ? "" : ", ") + book_.name(book_.setups[i].name);
        }
    }

    void gather_sights() {
        std::set<std::pair<std::size_t, NameId>> seen;
        for (const Reading& reading : book_.readings) {
            if (reading.setup_at < 0) continue;
            const std::size_t tripod = tripod_at_[static_cast<std::size_t>(reading.setup_at)];
            if (tripod == SIZE_MAX || reading.point >= evaluation_.where.points.size()) continue;
            if (!here(evaluation_.where.points[reading.point])) continue;
            if (seen.insert({tripod, reading.point}).second) sights_.emplace_back(tripod, reading.point);
        }
        sights_left_out_ = sights_.size() > most_sights;
        if (sights_left_out_) sights_.clear();
    }

    static At on(const PlanFrame& frame, const Spot& spot) { return frame.at(spot.e, spot.n); }

    // Names of lines are placed before the symbols are drawn, and must not lie under them.
    void keep_marks_clear(Drawing& drawing, const PlanFrame& frame) const {
        const auto clear = [&](const Spot& spot, double half) {
            const At at = on(frame, spot);
            drawing.keep_clear({at.x - half, at.y - half, at.x + half, at.y + half});
        };
        for (const PlanTripod& tripod : tripods_) clear(tripod.spot, 2.2);
        for (const PlanPoint& point : points_) {
            if (!point.on_line) clear(point.spot, point.benchmark ? 1.6 : 1);
        }
    }

    void draw_sights(Drawing& drawing, const PlanFrame& frame) const {
        for (const auto& [tripod, point] : sights_) {
            const At a = on(frame, tripods_[tripod].spot), b = on(frame, evaluation_.where.points[point]);
            if (std::fabs(a.x - b.x) + std::fabs(a.y - b.y) < least_sight) continue;
            drawing.line(a, b, {hair, Ink::Faint, Dash::Dashed});
        }
    }

    void draw_lines(Drawing& drawing, const PlanFrame& frame) const {
        for (const PlanRun& run : runs_) {
            std::vector<At> places;
            for (const Spot& corner : run.corners) places.push_back(on(frame, corner));
            drawing.path(places, {heavy_line, Ink::Design, Dash::Solid},
                         book_.name(book_.lines[run.line].name));
            for (std::size_t i = 1; i < places.size(); ++i) drawing.avoid(places[i - 1], places[i]);
            // The name beside both ends, the beginning first.
            sheet::Label name = label({}, book_.name(book_.lines[run.line].name), usual_type + 0.4);
            name.bold = true;
            name.cleared = true;
            std::vector<LabelPlace> spots = {beyond(places[1], places[0], name),
                                             beyond(places[places.size() - 2], places.back(), name)};
            const std::vector<LabelPlace> near = places_around(places.front(), 3, name.size);
            const std::vector<LabelPlace> others = places_around(places.back(), 3, name.size);
            spots.insert(spots.end(), near.begin(), near.end());
            spots.insert(spots.end(), others.begin(), others.end());
            drawing.place(name, spots, name.text);
        }
    }

    // Where the line would go on beyond its end: nothing else is meant there.
    static LabelPlace beyond(At before, At end, const sheet::Label& name) {
        const double dx = end.x - before.x, dy = end.y - before.y, length = std::sqrt(dx * dx + dy * dy);
        if (!(length > 0)) return {end, Anchor::Middle};
        const double reach = 2.5 + text_width(name.text, name.size, true) / 2;
        return {{end.x + reach * dx / length, end.y + reach * dy / length + name.size * 0.36},
                Anchor::Middle};
    }

    // Points read on a line: their names say where they are, so a dot is enough.
    void draw_stations(Drawing& drawing, const PlanFrame& frame) const {
        if (points_.size() > most_marks) return;
        for (const PlanPoint& point : points_) {
            if (point.on_line)
                drawing.mark({on(frame, point.spot), sheet::Mark::Spot, station_size, 0, Ink::Line},
                             book_.name(point.name));
        }
    }

    void draw_tripods(Drawing& drawing, const PlanFrame& frame) {
        for (const PlanTripod& tripod : tripods_) {
            const At at = on(frame, tripod.spot);
            if (tripod.heading.known) draw_axes(drawing, at, tripod.heading);
            drawing.mark({at, sheet::Mark::SetUp, 4.4, 0, Ink::Line}, tripod.names);
        }
        for (const PlanTripod& tripod : tripods_) {
            sheet::Label name = label({}, tripod.names, usual_type);
            name.bold = true;
            name.cleared = true;
            const At at = on(frame, tripod.spot);
            std::vector<LabelPlace> places = places_around(at, 2.8, name.size);
            const std::vector<LabelPlace> farther = places_around(at, 6, name.size);
            places.insert(places.end(), farther.begin(), farther.end());
            drawing.place(name, places, tripod.names);
        }
    }

    void draw_axes(Drawing& drawing, At at, const Heading& heading) {
        axes_ = true;
        const auto arrow = [&](double dx, double dy, const char* letter, Dash dash) {
            const At end = {at.x + axis_length * dx, at.y + axis_length * dy};
            drawing.line(at, end, {wide, Ink::Line, dash});
            drawing.avoid(at, end);
            // Two strokes of the head, each a quarter of the way off the axis.
            for (const double side : {-1.0, 1.0})
                drawing.line(end, {end.x - 2 * dx + side * 0.8 * dy, end.y - 2 * dy - side * 0.8 * dx},
                             {wide, Ink::Line, Dash::Solid});
            drawing.place(label({}, letter, usual_type),
                          {{{end.x + 2 * dx, end.y + 2 * dy + usual_type * 0.36}, Anchor::Middle},
                           {{end.x + 3.5 * dx, end.y + 3.5 * dy + usual_type * 0.36}, Anchor::Middle}});
        };
        // East is right, north is up; cross is to the right of main.
        arrow(heading.e, -heading.n, "X", Dash::Solid);
        arrow(heading.n, heading.e, "Y", Dash::Dashed);
    }

    void draw_points(Drawing& drawing, const PlanFrame& frame) const {
        if (points_.size() > most_marks) return;
        for (const PlanPoint& point : points_) {
            if (point.on_line) continue;
            const sheet::Mark mark = point.benchmark ? sheet::Mark::Benchmark : sheet::Mark::Point;
            drawing.mark({on(frame, point.spot), mark, point.benchmark ? 3.2 : point_size, 0, Ink::Line},
                         book_.name(point.name));
        }
        for (const bool benchmarks : {true, false}) {
            for (const PlanPoint& point : points_) {
                if (point.on_line || point.benchmark != benchmarks) continue;
                sheet::Label name = label({}, book_.name(point.name), benchmarks ? usual_type : small_type);
                name.bold = benchmarks;
                drawing.place(name, places_around(on(frame, point.spot), benchmarks ? 2.4 : 1.4, name.size),
                              name.text);
            }
        }
    }

    void draw_chainages(Drawing& drawing, const PlanFrame& frame) const {
        for (const PlanRun& run : runs_) {
            const PlanLine places(book_.lines[run.line], static_cast<std::int32_t>(run.line));
            const double step = round_step(tick_apart * frame.scale() / mm_per_metre, book_.unit);
            const double first = std::ceil(rounded_to(run.from / step, 6)) * step;
            for (int i = 0; first + i * step <= run.to + 1e-6; ++i) {
                const double ch = first + i * step, aside = tick * frame.scale() / mm_per_metre;
                const At left = on(frame, places.at(ch, -aside)), right = on(frame, places.at(ch, aside));
                drawing.line(left, right, {medium, Ink::Design, Dash::Solid});
                const At off = {right.x - left.x, right.y - left.y};
                std::vector<LabelPlace> spots;
                for (const double side : {1.0, -1.0}) {
                    for (const double far : {1.0, 1.8}) {
                        const At at = side > 0 ? right : left;
                        const double x = at.x + side * far * off.x * 0.9,
                                     y = at.y + side * far * off.y * 0.9 + small_type * 0.36;
                        spots.push_back({{x, y},
                                         off.x * side > 0.8    ? Anchor::Start
                                         : off.x * side < -0.8 ? Anchor::End
                                                               : Anchor::Middle});
                    }
                }
                sheet::Label words = label({}, short_words(book_, ch), small_type);
                words.cleared = true;
                drawing.place(words, spots);
            }
        }
    }

    std::vector<LegendEntry> legend() const {
        std::vector<LegendEntry> entries;
        const auto has = [this](auto what) { return std::any_of(points_.begin(), points_.end(), what); };
        if (!runs_.empty())
            entries.push_back(
                {sheet::Stroke{heavy_line, Ink::Design, Dash::Solid}, "line, with its chainage"});
        if (!tripods_.empty()) entries.push_back({Marked{sheet::Mark::SetUp, Ink::Line}, "set-up"});
        if (axes_) {
            entries.push_back({sheet::Stroke{wide, Ink::Line, Dash::Solid}, "X, main axis"});
            entries.push_back({sheet::Stroke{wide, Ink::Line, Dash::Dashed}, "Y, cross axis"});
        }
        if (!sights_.empty()) entries.push_back({sheet::Stroke{hair, Ink::Faint, Dash::Dashed}, "sight"});
        if (has([](const PlanPoint& p) { return p.benchmark; }))
            entries.push_back({Marked{sheet::Mark::Benchmark, Ink::Line}, "benchmark"});
        if (has([](const PlanPoint& p) { return !p.benchmark && !p.on_line; }))
            entries.push_back({Marked{sheet::Mark::Point, Ink::Line}, "point"});
        if (has([](const PlanPoint& p) { return p.on_line; }))
            entries.push_back({Marked{sheet::Mark::Spot, Ink::Line}, "read on a line"});
        return entries;
    }

    std::string said(const PlanFrame& frame) const {
        std::string words = "Plan at " + scale_words(frame.scale(), book_.unit) + " with " +
                            counted(points_.size(), "point", "points");
        const auto add = [&words](std::size_t count, std::string_view one, std::string_view many) {
            if (count > 0) words += ", " + counted(count, one, many);
        };
        add(runs_.size(), "line", "lines");
        add(tripods_.size(), "place of an instrument", "places of instruments");
        add(sights_.size(), "sight", "sights");
        return words + ".";
    }

    const Evaluation& evaluation_;
    const Book& book_;
    std::int32_t frame_;
    Room room_;
    Extent extent_;
    std::vector<PlanRun> runs_;
    std::vector<PlanPoint> points_;
    std::vector<PlanTripod> tripods_;
    std::vector<std::size_t> tripod_at_;  // by set-up
    std::vector<std::pair<std::size_t, NameId>> sights_;
    bool sights_left_out_ = false, axes_ = false;
};

}  // namespace

std::vector<sheet::Figure> plan_of(const Evaluation& evaluation, Room room) {
    std::vector<sheet::Figure> figures;
    const auto frames = static_cast<std::int32_t>(evaluation.book->lines.size()) + 1;
    for (std::int32_t frame = 0; frame < frames; ++frame) {
        if (frame > 0 && evaluation.book->lines[static_cast<std::size_t>(frame - 1)].plan.size() > 1)
            continue;
        Plan plan(evaluation, frame, room);
        if (plan.any()) figures.push_back(plan.draw());
    }
    return figures;
}

}  // namespace fallwright::record
