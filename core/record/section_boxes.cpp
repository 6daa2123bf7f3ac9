#include <algorithm>
#include <cmath>

#include "record/figure_words.h"
#include "record/section_sheet.h"

namespace fallwright::record {

namespace {

using sheet::Ink;

class RowMaker {
  public:
    explicit RowMaker(const SectionSheet& sheet) : sheet_(sheet), book_(*sheet.data->book) {}

    std::vector<BoxRow> run() {
        const std::string unit = unit_words(book_);
        add("Chainage", unit, [this](const Column& column) {
            return level_words(book_, column.ch) + (column.side.empty() ? "" : " " + column.side);
        });
        add_level("Existing ground", unit, &Column::ground);
        add_level("Design " + sheet_.data->profile, unit, &Column::design);
        for (std::size_t i = 0; i < sheet_.data->surfaces.size(); ++i) add_found(i, unit);
        add_level("Depth of trench", unit, &Column::depth);
        add_level("Cover", unit, &Column::cover);
        return std::move(rows_);
    }

  private:
    template <class Value>
    void add(const std::string& title, const std::string& unit, Value value) {
        std::vector<std::string> values;
        for (std::size_t i = 0; i < sheet_.count(); ++i) values.push_back(value(sheet_.column(i)));
        const bool known = std::any_of(sheet_.data->columns.begin(), sheet_.data->columns.end(),
                                       [&](const Column& column) { return !value(column).empty(); });
        if (known) rows_.push_back({title, unit, std::move(values), 0});
    }

    void add_level(const std::string& title, const std::string& unit, double Column::*member) {
        add(title, unit, [this, member](const Column& column) { return level_words(book_, column.*member); });
    }

    void add_found(std::size_t i, const std::string& unit) {
        const std::string& what = sheet_.data->surfaces[i];
        const std::string name = what == "laid" ? "As laid" : "As found, " + what;
        add(name, unit, [&, i](const Column& column) { return level_words(book_, column.found[i].level); });
        add(what == "laid" ? "As laid - design" : "Found - design, " + what, difference_unit(book_),
            [&, i](const Column& column) { return difference_words(book_, column.found[i].deviation); });
    }

    const SectionSheet& sheet_;
    const Book& book_;
    std::vector<BoxRow> rows_;
};

// From the ground down to the datum line and, bent, to its place in the boxes.
void draw_leader(Drawing& drawing, const SectionSheet& sheet, std::size_t i) {
    const Column& column = sheet.column(i);
    const double x = sheet.x(column.ch), at = sheet.boxes.columns[i];
    double highest = NAN;
    for (const double level : {column.ground, column.design}) highest = std::fmax(highest, level);
    for (const Found& found : column.found) highest = std::fmax(highest, found.level);
    const sheet::Stroke stroke = {hair, Ink::Faint, sheet::Dash::Solid};
    const double top = std::isnan(highest) ? sheet.datum_y : sheet.y(highest);
    drawing.path(
        {{x, top}, {x, sheet.datum_y + 0.8}, {at, sheet.datum_y + knee - 0.6}, {at, sheet.datum_y + knee}},
        stroke);
}

}  // namespace

std::vector<BoxRow> box_rows(const SectionSheet& sheet) {
    return RowMaker(sheet).run();
}

double draw_boxes(Drawing& drawing, const SectionSheet& sheet) {
    for (std::size_t i = 0; i < sheet.count(); ++i) draw_leader(drawing, sheet, i);
    return draw_box_rows(drawing, sheet.boxes, sheet.datum_y + knee);
}

}  // namespace fallwright::record
