#include <algorithm>
#include <cmath>

#include "base/stable_order.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/network_data.h"
#include "record/scales.h"
#include "record/words.h"

namespace fallwright::record {

namespace {

using sheet::Anchor;
using sheet::At;
using sheet::Dash;
using sheet::Ink;

constexpr double side = 6, setups_high = 8, between_rows = 30, point_apart = 4.4, track = 5.5,
                 longest_name = 36;
constexpr std::size_t most_figures = 45;  // residuals written on the edges of one band

// A span under the points, in the first row of brackets where it has room.
struct Bracket {
    double left, right;
    std::size_t row;
};

// Where the legs of brackets stand beside each other under one point.
class Legs {
  public:
    explicit Legs(const NetBand& band) : count_(band.points.size(), 0), used_(band.points.size(), 0) {
        for (const NetEdge& edge : band.edges) {
            if (edge.step) add(edge.from, edge.to);
        }
        for (const NetClosure& closure : band.closures) add(closure.from, closure.to);
    }
    double next(std::size_t point) { return (used_[point]++ - (count_[point] - 1) / 2) * leg_apart; }

  private:
    void add(std::size_t from, std::size_t to) {
        ++count_[from];
        ++count_[to];
    }
    static constexpr double leg_apart = 1.1;
    std::vector<double> count_, used_;
};

class NetFigure {
  public:
    NetFigure(const Book& book, const Net& net, Room room) : book_(book), net_(net), room_(room) {}

    std::vector<sheet::Figure> draw() {
        std::vector<sheet::Figure> figures;
        std::size_t from = 0;
        std::vector<std::pair<std::size_t, std::size_t>> parts;
        while (from < net_.bands.size()) {
            std::size_t to = from;
            double used = 14;
            while (to < net_.bands.size() &&
                   (to == from || used + height_of(net_.bands[to]) < room_.height - 30))
                used += height_of(net_.bands[to++]);
            parts.emplace_back(from, to);
            from = to;
        }
        for (std::size_t i = 0; i < parts.size(); ++i)
            figures.push_back(draw_sheet(
                parts[i].first, parts[i].second,
                parts.size() < 2 ? ""
                                 : ", sheet " + std::to_string(i + 1) + " of " + std::to_string(parts.size()),
                i + 1 == parts.size()));
        return figures;
    }

  private:
    sheet::Figure draw_sheet(std::size_t from, std::size_t to, const std::string& part, bool last) {
        Drawing drawing(room_.width, room_.height + 600);
        const std::string title = "What was tied to what" + part;
        double y = draw_head(
            drawing, title,
            "Set-ups above, points below, not to scale. Figures: residuals, booked - computed, in " +
                difference_unit(book_) + ", the largest where a point was read more than once.",
            book_.title);
        used_ = {};
        for (std::size_t i = from; i < to; ++i) y = draw_band(drawing, net_.bands[i], y);
        if (last) {
            for (const std::string& words : net_.closures)
                y = draw_paragraph(drawing, words, {0, y}, room_.width, usual_type) + 0.5;
        }
        y = draw_legend(drawing, legend(), {0, y + 1}, room_.width);
        drawing.cut(y + 0.5);
        return drawing.take(title, said(from, to));
    }

    static double name_length(const NetBand& band) {
        double longest = 6;
        for (const NetNode& point : band.points)
            longest = std::max(longest, text_width(cut_to(point.name, small_type, longest_name), small_type,
                                                   point.benchmark));
        return longest;
    }

    double height_of(const NetBand& band) const {
        const std::vector<double> at = places_of_points(band);
        return (band.setups.empty() ? 4 : setups_high + between_rows) + name_length(band) + 6 +
               static_cast<double>(rows_of(band, at)) * track + 6;
    }

    double setup_x(const NetBand& band, double index) const {
        const double count = static_cast<double>(std::max<std::size_t>(band.setups.size(), 1));
        return side + (index + 0.5) * (room_.width - 2 * side) / count;
    }

    // By point of the band.
    std::vector<double> places_of_points(const NetBand& band) const {
        std::vector<std::size_t> order(band.points.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        sort_stably(order, [&](std::size_t a, std::size_t b) {
            return band.points[a].wanted < band.points[b].wanted;
        });
        std::vector<double> wanted;
        const double count = static_cast<double>(band.points.size());
        for (std::size_t i = 0; i < order.size(); ++i) {
            wanted.push_back(band.setups.empty()
                                 ? side + (static_cast<double>(i) + 0.5) * (room_.width - 2 * side) / count
                                 : setup_x(band, band.points[order[i]].wanted));
        }
        const double apart = std::min(12.0, std::max(point_apart, (room_.width - 2 * side) / (count + 1)));
        const std::vector<double> spread_out =
            spread(wanted, std::min(apart, (room_.width - 2 * side) / std::max(count, 1.0)), side,
                   room_.width - side);
        std::vector<double> at(order.size());
        for (std::size_t i = 0; i < order.size(); ++i) at[order[i]] = spread_out[i];
        return at;
    }

    static std::size_t row_for(std::vector<Bracket>& brackets, double a, double b) {
        const double left = std::min(a, b), right = std::max(a, b);
        for (std::size_t row = 0;; ++row) {
            const bool free = std::none_of(brackets.begin(), brackets.end(), [&](const Bracket& each) {
                return each.row == row && each.left < right - 0.1 && left < each.right - 0.1;
            });
            if (!free) continue;
            brackets.push_back({left, right, row});
            return row;
        }
    }

    static std::size_t rows_of(const NetBand& band, const std::vector<double>& at) {
        std::vector<Bracket> brackets;
        std::size_t rows = 0;
        for (const NetEdge& edge : band.edges) {
            if (edge.step) rows = std::max(rows, row_for(brackets, at[edge.from], at[edge.to]) + 1);
        }
        for (const NetClosure& closure : band.closures)
            rows = std::max(rows, row_for(brackets, at[closure.from], at[closure.to]) + 1);
        return rows;
    }

    sheet::Stroke stroke_of(const NetEdge& edge) {
        if (!net_.residuals) return {thin, Ink::Line, Dash::Solid};
        (edge.large ? used_.large : edge.checked ? used_.checked : used_.alone) = true;
        if (edge.large) return {0.7, Ink::Line, Dash::Solid};
        return {edge.checked ? medium : thin, Ink::Line, edge.checked ? Dash::Solid : Dash::Dashed};
    }

    double draw_band(Drawing& drawing, const NetBand& band, double top) {
        const double setups_y = band.setups.empty() ? top : top + setups_high;
        const double points_y = setups_y + (band.setups.empty() ? 4 : between_rows);
        const std::vector<double> at = places_of_points(band);
        used_.setup = used_.setup || !band.setups.empty();
        for (const NetNode& point : band.points) used_.benchmark = used_.benchmark || point.benchmark;
        for (const NetEdge& edge : band.edges) {
            if (!edge.step)
                drawing.line({setup_x(band, static_cast<double>(edge.from)), setups_y},
                             {at[edge.to], points_y}, stroke_of(edge), edge.about);
        }
        draw_nodes(drawing, band, at, setups_y, points_y);
        draw_residuals(drawing, band, at, setups_y, points_y);
        const double names_end = points_y + 4 + name_length(band);
        std::vector<Bracket> brackets;
        Legs legs(band);
        for (const NetEdge& edge : band.edges) {
            if (!edge.step) continue;
            const std::size_t row = row_for(brackets, at[edge.from], at[edge.to]);
            draw_bracket(drawing, at[edge.from] + legs.next(edge.from), at[edge.to] + legs.next(edge.to),
                         names_end, row, stroke_of(edge),
                         std::isnan(edge.residual) ? "" : difference_words(book_, edge.residual), edge.large);
        }
        for (const NetClosure& closure : band.closures) {
            const std::size_t row = row_for(brackets, at[closure.from], at[closure.to]);
            used_.closure = true;
            draw_bracket(drawing, at[closure.from] + legs.next(closure.from),
                         at[closure.to] + legs.next(closure.to), names_end, row,
                         {wide, Ink::Line, Dash::DashDot}, closure.words, true);
        }
        return top + height_of(band);
    }

    static void draw_nodes(Drawing& drawing, const NetBand& band, const std::vector<double>& at,
                           double setups_y, double points_y) {
        for (std::size_t i = 0; i < band.setups.size(); ++i) {
            const double x = setup_x_of(drawing, band, i);
            drawing.mark({{x, setups_y}, sheet::Mark::SetUp, 4.4, 0, Ink::Line}, band.setups[i].name);
            sheet::Label name = label({x, setups_y - 3}, cut_to(band.setups[i].name, usual_type, 26),
                                      usual_type, Anchor::Middle);
            name.bold = true;
            drawing.text(name);
            drawing.place(label({}, band.setups[i].more, small_type), {{{x, setups_y - 6}, Anchor::Middle}});
        }
        for (std::size_t i = 0; i < band.points.size(); ++i) {
            const NetNode& point = band.points[i];
            drawing.mark({{at[i], points_y},
                          point.benchmark ? sheet::Mark::Benchmark : sheet::Mark::Spot,
                          point.benchmark ? 3.2 : 1.4,
                          0,
                          Ink::Line},
                         point.name);
            sheet::Label name = turned({at[i] + small_type * 0.36, points_y + 3.5},
                                       cut_to(point.name, small_type, longest_name), small_type, Anchor::End);
            name.bold = point.benchmark;
            drawing.text(name);
        }
    }

    static double setup_x_of(const Drawing& drawing, const NetBand& band, std::size_t i) {
        return side + (static_cast<double>(i) + 0.5) * (drawing.width() - 2 * side) /
                          static_cast<double>(band.setups.size());
    }

    void draw_residuals(Drawing& drawing, const NetBand& band, const std::vector<double>& at, double setups_y,
                        double points_y) const {
        if (!net_.residuals || band.edges.size() > most_figures) return;
        for (const NetEdge& edge : band.edges) {
            // What nothing checks has no residual to speak of.
            if (edge.step || !edge.checked || std::isnan(edge.residual)) continue;
            const double x = setup_x(band, static_cast<double>(edge.from));
            sheet::Label words = label({}, difference_words(book_, edge.residual), small_type);
            words.bold = edge.large;
            words.cleared = true;
            std::vector<LabelPlace> places;
            for (const double share : {0.6, 0.7, 0.5, 0.8, 0.4, 0.86, 0.3})
                places.push_back(
                    {{x + share * (at[edge.to] - x), setups_y + share * (points_y - setups_y) + 0.7},
                     Anchor::Middle});
            drawing.place(words, places, edge.about);
        }
    }

    static void draw_bracket(Drawing& drawing, double a, double b, double top, std::size_t row,
                             const sheet::Stroke& stroke, const std::string& words, bool bold) {
        const double y = top + 3 + static_cast<double>(row) * track;
        drawing.path({{a, top - 1}, {a, y}, {b, y}, {b, top - 1}}, stroke);
        sheet::Label text = label({}, words, small_type);
        text.bold = bold;
        text.cleared = true;
        std::vector<LabelPlace> places;
        const bool fits = text_width(words, small_type, bold) < std::fabs(b - a) - 3;
        for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
            if (fits) places.push_back({{a + share * (b - a), y + 0.7}, Anchor::Middle});
        }
        places.push_back({{std::max(a, b) + 1, y + 0.7}, Anchor::Start});
        places.push_back({{std::min(a, b) - 1, y + 0.7}, Anchor::End});
        drawing.place(text, places);
    }

    std::vector<LegendEntry> legend() const {
        std::vector<LegendEntry> entries;
        if (used_.setup) entries.push_back({Marked{sheet::Mark::SetUp, Ink::Line}, "set-up"});
        if (used_.benchmark) entries.push_back({Marked{sheet::Mark::Benchmark, Ink::Line}, "benchmark"});
        entries.push_back({Marked{sheet::Mark::Spot, Ink::Line}, "point"});
        if (used_.checked)
            entries.push_back({sheet::Stroke{medium, Ink::Line, Dash::Solid}, "seen, and checked by others"});
        if (used_.alone)
            entries.push_back({sheet::Stroke{thin, Ink::Line, Dash::Dashed}, "seen, nothing checks it"});
        if (used_.large)
            entries.push_back(
                {sheet::Stroke{0.7, Ink::Line, Dash::Solid}, "residual over 2.5 of its standard deviations"});
        if (used_.closure) entries.push_back({sheet::Stroke{wide, Ink::Line, Dash::DashDot}, "closure"});
        return entries;
    }

    std::string said(std::size_t from, std::size_t to) const {
        std::size_t setups = 0, points = 0, edges = 0;
        for (std::size_t i = from; i < to; ++i) {
            setups += net_.bands[i].setups.size();
            points += net_.bands[i].points.size();
            edges += net_.bands[i].edges.size();
        }
        std::string words = counted(setups, "set-up", "set-ups") + " and " +
                            counted(points, "point", "points") + " with " +
                            counted(edges, "sight or step", "sights and steps") + " between them.";
        for (const std::string& closure : net_.closures) words += " " + closure;
        return words;
    }

    struct Used {
        bool checked = false, alone = false, large = false, closure = false, setup = false, benchmark = false;
    };
    const Book& book_;
    const Net& net_;
    Room room_;
    Used used_;
};

}  // namespace

std::vector<sheet::Figure> network(const Evaluation& evaluation, Room room) {
    const Net net = net_of(evaluation);
    return NetFigure(*evaluation.book, net, room).draw();
}

}  // namespace fallwright::record
