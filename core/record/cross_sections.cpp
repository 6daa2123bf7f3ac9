#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/boxes.h"
#include "record/cross_data.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/scales.h"

namespace fallwright::record {

namespace {

using sheet::At;
using sheet::Dash;
using sheet::Ink;

constexpr double inset = 5, right_margin = 2, knee = 3.5, over_datum = 4, name_height = 6;
constexpr double plot_height = 22, between = 5, axis_apart = 6, most_exaggeration = 10;
constexpr double same_spread = 1e-6;

class CrossSheets {
  public:
    CrossSheets(const Evaluation& evaluation, std::size_t line, Room room)
        : book_(*evaluation.book), data_(cross_data(evaluation, line)), room_(room) {}

    std::vector<sheet::Figure> run() {
        std::vector<sheet::Figure> figures;
        if (data_.sections.empty()) return figures;
        choose_scales();
        level_ = std::all_of(data_.sections.begin(), data_.sections.end(),
                             [this](const CrossSection& section) { return fits_level(table_of(section)); });
        std::vector<std::pair<std::size_t, std::size_t>> sheets;
        const double usable = room_.height - 24;
        double used = usable + 1;
        for (std::size_t i = 0; i < data_.sections.size(); ++i) {
            const double height = height_of(data_.sections[i]);
            if (used + height > usable) {
                sheets.push_back({i, i});
                used = 0;
            }
            sheets.back().second = i + 1;
            used += height;
        }
        for (std::size_t i = 0; i < sheets.size(); ++i)
            figures.push_back(draw(sheets[i].first, sheets[i].second,
                                   sheets.size() < 2 ? ""
                                                     : ", sheet " + std::to_string(i + 1) + " of " +
                                                           std::to_string(sheets.size())));
        return figures;
    }

  private:
    struct Range {
        double low = NAN, high = NAN;
        void take(double value) {
            low = std::fmin(low, value);
            high = std::fmax(high, value);
        }
        double size() const { return std::isnan(low) ? 0 : high - low; }
    };

    static Range levels(const CrossSection& section) {
        Range range;
        for (const CrossColumn& column : section.columns) {
            range.take(column.ground);
            range.take(column.design);
            for (const Found& found : column.found) {
                range.take(found.level);
                range.take(found.design);
            }
        }
        return range;
    }

    double inner_width() const { return room_.width - gutter - right_margin - 2 * inset; }

    void choose_scales() {
        double width = same_spread, height = same_spread;
        for (const CrossSection& section : data_.sections) {
            width = std::max(width, section.columns.back().off - section.columns.front().off);
            height = std::max(height, levels(section).size());
        }
        horizontal_ = round_scale(width * mm_per_metre / inner_width(), book_.unit);
        vertical_ = round_scale(height * mm_per_metre / plot_height, book_.unit);
        vertical_ = std::max(vertical_, round_scale(horizontal_ / most_exaggeration, book_.unit));
        if (vertical_ < horizontal_ && height * mm_per_metre / horizontal_ > plot_height * 0.6)
            vertical_ = horizontal_;
    }

    std::vector<BoxRow> rows(const CrossSection& section) const {
        std::vector<BoxRow> all;
        const std::string unit = unit_words(book_);
        const auto add = [&](const std::string& title, const std::string& of, auto value) {
            std::vector<std::string> values;
            bool any = false;
            for (const CrossColumn& column : section.columns) {
                values.push_back(value(column));
                any = any || !values.back().empty();
            }
            if (any) all.push_back({title, of, std::move(values), 0});
        };
        add("Offset", unit, [this](const CrossColumn& column) { return offset_words(column.off); });
        add("Existing ground", unit,
            [this](const CrossColumn& column) { return level_words(book_, column.ground); });
        add("Design " + data_.profile, unit,
            [this](const CrossColumn& column) { return level_words(book_, column.design); });
        for (std::size_t i = 0; i < data_.surfaces.size(); ++i) {
            const std::string& what = data_.surfaces[i];
            if (what != data_.profile)
                add("Design " + what, unit, [this, i](const CrossColumn& column) {
                    return level_words(book_, column.found[i].design);
                });
            add("Found, " + what, unit,
                [this, i](const CrossColumn& column) { return level_words(book_, column.found[i].level); });
            add("Found - design", difference_unit(book_), [this, i](const CrossColumn& column) {
                return difference_words(book_, column.found[i].deviation);
            });
        }
        return all;
    }

    std::string offset_words(double off) const {
        if (off == 0) return "0";
        return (off < 0 ? "L " : "R ") + level_words(book_, std::fabs(off));
    }

    double datum_of(const CrossSection& section) const {
        const double step = round_step(axis_apart * vertical_ / mm_per_metre, book_.unit);
        const Range range = levels(section);
        const double low = std::isnan(range.low) ? 0 : range.low;
        return std::floor(rounded_to((low - over_datum * vertical_ / mm_per_metre) / step, 6)) * step;
    }

    // The line itself stands where it would in the middle of what was read.
    double x_of(const CrossSection& section, double off) const {
        const double middle = (section.columns.front().off + section.columns.back().off) / 2;
        return gutter + inset + inner_width() / 2 + on_paper(off - middle, horizontal_);
    }

    BoxTable table_of(const CrossSection& section) const {
        BoxTable table = {gutter, room_.width - right_margin, false, {}, rows(section)};
        std::vector<double> wanted;
        for (const CrossColumn& column : section.columns) wanted.push_back(x_of(section, column.off));
        table.columns = spread(wanted, column_apart, table.left + 2, table.right - 2);
        lay_rows(table, level_);
        return table;
    }

    double height_of(const CrossSection& section) const {
        const Range range = levels(section);
        const double high = std::isnan(range.high) ? 0 : range.high;
        return name_height + on_paper(high - datum_of(section), vertical_) + 3 + knee +
               box_rows_height(table_of(section).rows) + between;
    }

    sheet::Figure draw(std::size_t first, std::size_t last, const std::string& part) {
        Drawing drawing(room_.width, room_.height + 400);
        const std::string title = "Cross sections of " + data_.name + part;
        double y = draw_head(drawing, title, facts(), book_.title);
        legend_.clear();
        marks_ = {};
        for (std::size_t i = first; i < last; ++i) y = draw_section(drawing, data_.sections[i], y);
        std::vector<LegendEntry> legend = legend_;
        add_marks(legend, marks_);
        y = draw_legend(drawing, legend, {0, y}, room_.width);
        drawing.cut(y + 0.5);
        return drawing.take(title, said(first, last));
    }

    std::string facts() const {
        const double times = horizontal_ / vertical_;
        std::string words = "Seen with chainage, left and right of the line. Across " +
                            scale_words(horizontal_, book_.unit) + ", heights " +
                            scale_words(vertical_, book_.unit);
        if (times > 1.001) words += " (exaggerated " + trimmed(times, 1) + " times)";
        return words + ". Levels in " + unit_words(book_) + ".";
    }

    std::string said(std::size_t first, std::size_t last) const {
        std::string words =
            std::to_string(last - first) + " cross sections of line " + data_.name + " at chainage ";
        for (std::size_t i = first; i < last; ++i)
            words += (i == first ? "" : ", ") + level_words(book_, data_.sections[i].ch);
        return words + ".";
    }

    double draw_section(Drawing& drawing, const CrossSection& section, double top) {
        const Range range = levels(section);
        const double datum = datum_of(section);
        const double high = std::isnan(range.high) ? datum : range.high;
        const double datum_y = top + name_height + 3 + on_paper(high - datum, vertical_);
        const auto x = [&](double off) { return x_of(section, off); };
        const auto y = [&](double level) { return datum_y - on_paper(level - datum, vertical_); };
        sheet::Label name = label({1, top + usual_type * 1.2}, "Chainage " + level_words(book_, section.ch),
                                  usual_type + 0.4);
        name.bold = true;
        drawing.text(name);
        const BoxTable table = table_of(section);
        std::vector<double> wanted;
        for (const CrossColumn& column : section.columns) wanted.push_back(x(column.off));
        draw_frame(drawing, section, table, wanted, datum, datum_y, y);
        draw_lines(drawing, section, x, y);
        return draw_box_rows(drawing, table, datum_y + knee) + between;
    }

    template <class Y>
    void draw_frame(Drawing& drawing, const CrossSection& section, const BoxTable& table,
                    const std::vector<double>& places, double datum, double datum_y, Y y) const {
        drawing.line({0, datum_y}, {table.right, datum_y}, {wide, Ink::Line, Dash::Solid});
        sheet::Label words = label({1, datum_y - 1}, "Datum " + level_words(book_, datum), small_type);
        words.bold = true;
        drawing.text(words);
        for (std::size_t i = 0; i < places.size(); ++i) {
            const CrossColumn& column = section.columns[i];
            double highest = std::fmax(column.ground, column.design);
            for (const Found& found : column.found) highest = std::fmax(highest, found.level);
            const double top = std::isnan(highest) ? datum_y : y(highest);
            drawing.path({{places[i], top},
                          {places[i], datum_y + 0.6},
                          {table.columns[i], datum_y + knee - 0.4},
                          {table.columns[i], datum_y + knee}},
                         {hair, Ink::Faint, Dash::Solid});
            if (column.off != 0) continue;
            drawing.line({places[i], datum_y}, {places[i], top - 5}, {thin, Ink::Line, Dash::DashDot});
            drawing.place(label({}, data_.name, small_type),
                          {{{places[i], top - 5.5}, sheet::Anchor::Middle}});
        }
    }

    // One line through the columns that have a value.
    template <class Value, class X, class Y>
    void draw_line(Drawing& drawing, const CrossSection& section, Value value, X x, Y y,
                   const sheet::Stroke& stroke, const std::string& word) {
        std::vector<At> line;
        for (const CrossColumn& column : section.columns) {
            if (!std::isnan(value(column))) line.push_back({x(column.off), y(value(column))});
        }
        if (line.size() < 2) return;
        drawing.path(std::move(line), stroke);
        const bool listed = std::any_of(legend_.begin(), legend_.end(),
                                        [&](const LegendEntry& entry) { return entry.word == word; });
        if (!listed) legend_.push_back({stroke, word});
    }

    template <class X, class Y>
    void draw_lines(Drawing& drawing, const CrossSection& section, X x, Y y) {
        draw_line(
            drawing, section, [](const CrossColumn& column) { return column.ground; }, x, y,
            {medium, Ink::Ground, Dash::Dashed}, "existing ground");
        draw_line(
            drawing, section, [](const CrossColumn& column) { return column.design; }, x, y,
            {heavy_line, Ink::Design, Dash::Solid}, "design " + data_.profile);
        constexpr std::array<Dash, 3> dashes = {Dash::DashDot, Dash::Dotted, Dash::Dotted};
        for (std::size_t i = 0; i < data_.surfaces.size(); ++i) {
            const std::string& what = data_.surfaces[i];
            if (what != data_.profile)
                draw_line(
                    drawing, section, [i](const CrossColumn& column) { return column.found[i].design; }, x, y,
                    {medium, Ink::Design, Dash::Solid}, "design " + what);
            draw_line(
                drawing, section, [i](const CrossColumn& column) { return column.found[i].level; }, x, y,
                {thin, Ink::Line, dashes[i]}, "found, " + what);
            for (const CrossColumn& column : section.columns) draw_found(drawing, column.found[i], x, y);
        }
        for (const CrossColumn& column : section.columns) {
            if (!std::isnan(column.ground))
                drawing.mark({{x(column.off), y(column.ground)}, sheet::Mark::Point, 1.6, 0, Ink::Ground});
        }
    }

    template <class X, class Y>
    void draw_found(Drawing& drawing, const Found& found, X x, Y y) {
        if (!found.any()) return;
        const sheet::Mark mark = mark_of(found.judged, found.deviation);
        note_mark(marks_, mark);
        drawing.mark({{x(found.off), y(found.level)},
                      mark,
                      mark == sheet::Mark::Spot ? 1.2 : 2.2,
                      0,
                      ink_of(found.judged, found.deviation)},
                     found.point);
    }

    const Book& book_;
    CrossData data_;
    Room room_;
    double horizontal_ = 100, vertical_ = 100;
    bool level_ = false;  // values of the boxes stand level
    std::vector<LegendEntry> legend_;
    UsedMarks marks_;
};

}  // namespace

std::vector<sheet::Figure> cross_sections(const Evaluation& evaluation, std::size_t line, Room room) {
    return CrossSheets(evaluation, line, room).run();
}

}  // namespace fallwright::record
