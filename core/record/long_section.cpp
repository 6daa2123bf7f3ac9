#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/figure_words.h"
#include "record/section_sheet.h"

namespace fallwright::record {

namespace {

constexpr double names_height = 8, panel_height = 26, panel_gap = 9, level_axis_apart = 8;
constexpr double least_section = 25, most_section = 70, most_exaggeration = 10, right_margin = 2;
constexpr double side_by_side = 1.1, least_width = 60;

class LongSection {
  public:
    LongSection(const Evaluation& evaluation, std::size_t line, Room room)
        : data_(section_data(evaluation, line)), book_(*data_.book), room_(room) {}

    std::vector<sheet::Figure> run() {
        std::vector<sheet::Figure> figures;
        if (data_.columns.empty() || !make_sheets()) return figures;
        choose_vertical();
        for (std::size_t i = 0; i < sheets_.size(); ++i) figures.push_back(draw(sheets_[i], i));
        return figures;
    }

  private:
    double inner_width() const { return room_.width - gutter - right_margin - 2 * SectionSheet::inset; }

    bool make_sheets() {
        std::vector<double> chainages;
        for (const Column& column : data_.columns) chainages.push_back(column.ch);
        const double scale = scale_along(chainages, inner_width(), column_apart + 0.4, book_.unit);
        const auto most = static_cast<std::size_t>(inner_width() / column_apart);
        bool any = false;
        for (const Window& window : windows_of(chainages, inner_width() * scale / mm_per_metre, most)) {
            SectionSheet sheet;
            sheet.data = &data_;
            sheet.window = window;
            sheet.unit = book_.unit;
            sheet.horizontal = scale;
            sheet.boxes.left = gutter;
            const double needed = gutter + least_width;
            sheet.boxes.right =
                std::clamp(sheet.x(window.to) + SectionSheet::inset, needed, room_.width - right_margin);
            find_range(sheet);
            any = any || !std::isnan(sheet.lowest);
            sheet.boxes.rows = box_rows(sheet);
            std::vector<double> wanted;
            for (std::size_t i = 0; i < sheet.count(); ++i) wanted.push_back(sheet.x(sheet.column(i).ch));
            sheet.boxes.columns = spread_columns(sheet, wanted);
            sheets_.push_back(std::move(sheet));
        }
        const bool level = std::all_of(sheets_.begin(), sheets_.end(),
                                       [](const SectionSheet& sheet) { return fits_level(sheet.boxes); });
        for (SectionSheet& sheet : sheets_) lay_rows(sheet.boxes, level);
        return any;
    }

    // The boxes grow to the right where the values would not fit.
    std::vector<double> spread_columns(SectionSheet& sheet, const std::vector<double>& wanted) const {
        const double needed = column_apart * static_cast<double>(wanted.size()) + 4;
        sheet.boxes.right =
            std::min(std::max(sheet.boxes.right, sheet.boxes.left + needed), room_.width - right_margin);
        return spread(wanted, column_apart, sheet.boxes.left + 2, sheet.boxes.right - 2);
    }

    bool has_panel() const { return !data_.found.empty() && data_.found.front().designed; }

    // One scale for all sheets; room for what is beside the section itself is kept.
    void choose_vertical() {
        double range = 0;
        for (const SectionSheet& sheet : sheets_) {
            if (!std::isnan(sheet.lowest)) range = std::max(range, sheet.highest - sheet.lowest);
        }
        const double others = 24 + names_height + knee + box_rows_height(sheets_.front().boxes.rows) +
                              (has_panel() ? panel_height + panel_gap : 0);
        const double height = std::clamp(room_.height - others, least_section, most_section) - over_datum - 2;
        double scale = round_scale(std::max(range, 1e-6) * mm_per_metre / height, book_.unit);
        scale = std::max(scale, round_scale(sheets_.front().horizontal / most_exaggeration, book_.unit));
        for (SectionSheet& sheet : sheets_) place_datum(sheet, scale);
    }

    void place_datum(SectionSheet& sheet, double scale) const {
        sheet.vertical = scale;
        if (std::isnan(sheet.lowest)) sheet.lowest = sheet.highest = 0;
        const double step = round_step(level_axis_apart * scale / mm_per_metre, book_.unit);
        const double wanted = sheet.lowest - over_datum * scale / mm_per_metre;
        sheet.datum = std::floor(rounded_to(wanted / step, 6)) * step;
    }

    std::string scale_facts(const SectionSheet& sheet) const {
        const double times = sheet.horizontal / sheet.vertical;
        std::string facts = "Horizontal " + scale_words(sheet.horizontal, book_.unit) + ", vertical " +
                            scale_words(sheet.vertical, book_.unit);
        if (times > 1.001) facts += " (heights exaggerated " + trimmed(times, 1) + " times)";
        if (times < 0.999) facts += " (heights reduced)";
        return facts + ". Levels in " + unit_words(book_) + " above " +
               (book_.datum.empty() ? "the datum of the book" : book_.datum) + ".";
    }

    std::string part(std::size_t i) const {
        return sheets_.size() < 2
                   ? ""
                   : ", sheet " + std::to_string(i + 1) + " of " + std::to_string(sheets_.size());
    }

    std::string stretch(const SectionSheet& sheet) const {
        const std::string from = level_words(book_, data_.columns[sheet.window.first].ch);
        const std::string to = level_words(book_, data_.columns[sheet.window.last].ch);
        return from == to ? "chainage " + from : "chainage " + from + " to " + to;
    }

    sheet::Figure draw(SectionSheet& sheet, std::size_t index) {
        Drawing drawing(room_.width, std::max(room_.height, 400.0));
        const std::string title = "Long section of " + data_.name + part(index);
        const double head =
            draw_head(drawing, title + ": " + stretch(sheet), scale_facts(sheet), book_.title);
        sheet.top = head + names_height;
        sheet.datum_y = sheet.top + on_paper(sheet.highest - sheet.datum, sheet.vertical);
        std::vector<LegendEntry> legend;
        draw_axis(drawing, sheet);
        const double boxes_end = draw_boxes(drawing, sheet);
        draw_section_lines(drawing, sheet, legend);
        draw_chambers(drawing, sheet, legend);
        draw_gradients(drawing, sheet);
        const double panel_end = has_panel() ? draw_deviations(drawing, sheet, boxes_end, legend) : boxes_end;
        const double end = draw_legend(drawing, legend, {0, panel_end + 3}, room_.width);
        draw_joins(drawing, sheet, index);
        drawing.cut(end + 0.5);
        return drawing.take(title + ", " + stretch(sheet), said(sheet));
    }

    // Datum line and a scale of levels at the left.
    void draw_axis(Drawing& drawing, const SectionSheet& sheet) const {
        using sheet::Ink;
        drawing.line({0, sheet.datum_y}, {sheet.boxes.right, sheet.datum_y},
                     {heavy_line, Ink::Line, sheet::Dash::Solid});
        sheet::Label datum =
            label({1, sheet.datum_y - 1.2}, "Datum " + level_words(book_, sheet.datum), usual_type);
        datum.bold = true;
        drawing.text(datum);
        const double step = round_step(level_axis_apart * sheet.vertical / mm_per_metre, book_.unit);
        const double x = sheet.boxes.left;
        drawing.line({x, sheet.datum_y}, {x, sheet.top - 2}, {thin, Ink::Line, sheet::Dash::Solid});
        for (int i = 1;; ++i) {
            const double level = sheet.datum + i * step, y = sheet.y(level);
            if (y < sheet.top - 2) break;
            drawing.line({x - 1.5, y}, {x, y}, {thin, Ink::Line, sheet::Dash::Solid});
            drawing.line({x, y}, {sheet.boxes.right, y}, {hair, Ink::Faint, sheet::Dash::Dotted});
            drawing.place(label({}, short_words(book_, level), small_type),
                          {{{x - 2, y + small_type * 0.36}, sheet::Anchor::End}});
        }
    }

    double draw_deviations(Drawing& drawing, const SectionSheet& sheet, double top,
                           std::vector<LegendEntry>& legend) const {
        const FoundSurface& surface = data_.found.front();
        const Box box = {sheet.boxes.left, top + panel_gap - 2, sheet.boxes.right,
                         top + panel_gap - 2 + panel_height};
        const DeviationPanel panel =
            deviation_panel(box, deviation_reach({surface}, false), surface.tolerance, book_.unit);
        draw_panel(drawing, panel, book_);
        std::vector<DeviationPoint> points;
        for (std::size_t i = 0; i < sheet.count(); ++i) {
            const Found& found = sheet.column(i).found.front();
            if (std::isnan(found.deviation)) continue;
            // Two at a chamber stand beside each other.
            const std::string& side = sheet.column(i).side;
            const double aside = side.empty()                                   ? 0
                                 : side == (data_.with_chainage ? "in" : "out") ? -side_by_side
                                                                                : side_by_side;
            points.push_back(
                {sheet.x(found.ch) + aside, found.deviation, found.sd, found.judged, found.point});
        }
        UsedMarks used;
        draw_points(drawing, panel, points, book_, false, used);
        const std::string what =
            surface.what == "laid" ? "As laid - design, " : "Found - design, " + surface.what + ", ";
        drawing.text(label({sheet.boxes.left, box.top - 1.4},
                           what + difference_unit(book_) + ", at " + scale_words(panel.scale, book_.unit) +
                               "; high is up. Bars: \u00b1 and 1.96 times \u00b1.",
                           small_type));
        if (surface.tolerance != nullptr)
            legend.push_back({Hatched{sheet::Ink::Faint, sheet::Pattern::HatchUp}, "band of tolerance"});
        add_marks(legend, used);
        return box.bottom;
    }

    void draw_joins(Drawing& drawing, const SectionSheet& sheet, std::size_t index) const {
        const auto words = [&](std::size_t other) { return "sheet " + std::to_string(other + 1); };
        const double y = sheet.top - names_height + 1.5;
        if (index > 0)
            drawing.place(label({}, "from " + words(index - 1), small_type),
                          {{{sheet.boxes.left, y}, sheet::Anchor::Start}});
        if (index + 1 < sheets_.size())
            drawing.place(label({}, "continues on " + words(index + 1), small_type),
                          {{{sheet.boxes.right, y}, sheet::Anchor::End}});
    }

    std::string said(const SectionSheet& sheet) const {
        std::string words = "Long section of line " + data_.name + ", " + stretch(sheet) + ", " +
                            std::to_string(sheet.count()) + " places. ";
        const Column& first = data_.columns[sheet.window.first];
        const Column& last = data_.columns[sheet.window.last];
        if (!std::isnan(first.design) && !std::isnan(last.design))
            words += "The design " + data_.profile + " goes from " + level_words(book_, first.design) +
                     " to " + level_words(book_, last.design) + ". ";
        if (has_panel()) words += judged_words(sheet);
        return words + "Datum line " + level_words(book_, sheet.datum) + " " + unit_words(book_) + ".";
    }

    std::string judged_words(const SectionSheet& sheet) const {
        std::size_t within = 0, outside = 0, open = 0, other = 0;
        for (std::size_t i = 0; i < sheet.count(); ++i) {
            const Found& found = sheet.column(i).found.front();
            if (!found.any()) continue;
            const Verdict verdict = found.judged.verdict;
            ++(verdict == Verdict::Within      ? within
               : verdict == Verdict::Outside   ? outside
               : verdict == Verdict::Undecided ? open
                                               : other);
        }
        std::string words = "As laid: " + std::to_string(within) + " within, " + std::to_string(outside) +
                            " outside, " + std::to_string(open) + " too close to call";
        if (other > 0) words += ", " + std::to_string(other) + " without tolerance";
        return words + ". ";
    }

    SectionData data_;
    const Book& book_;
    Room room_;
    std::vector<SectionSheet> sheets_;
};

}  // namespace

std::vector<sheet::Figure> long_section(const Evaluation& evaluation, std::size_t line, Room room) {
    return LongSection(evaluation, line, room).run();
}

}  // namespace fallwright::record
