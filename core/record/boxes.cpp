#include "record/boxes.h"

#include <algorithm>
#include <utility>

namespace fallwright::record {

namespace {

using sheet::Ink;

constexpr double padding = 2;  // mm, above and below the values together
constexpr double middle_of_type = 0.36;

void draw_name(Drawing& drawing, const BoxRow& row, double middle) {
    const double y = middle + small_type * middle_of_type;
    const std::size_t split = row.title.rfind(' ');
    const bool one_row = text_width(row.title + "  " + row.unit, small_type) < gutter - 2;
    if (one_row || split == std::string::npos) {
        drawing.text(label({1, y}, row.title, small_type));
    } else {
        drawing.text(label({1, middle - 0.4}, row.title.substr(0, split), small_type));
        drawing.text(label({1, middle + small_type + 0.4}, row.title.substr(split + 1), small_type));
    }
    drawing.text(label({gutter - 1, y + (one_row ? 0 : small_type * 0.5 + 0.2)}, row.unit, small_type,
                       sheet::Anchor::End));
}

void draw_values(Drawing& drawing, const BoxTable& table, const BoxRow& row, double y) {
    for (std::size_t i = 0; i < row.values.size(); ++i) {
        // A tick where the column goes on, so that the eye keeps to it and no line runs through a figure.
        const double x = table.columns[i];
        drawing.line({x, y}, {x, y + padding / 2 - 0.2}, {hair, Ink::Faint, sheet::Dash::Solid});
        drawing.text(
            turned({x + small_type * middle_of_type, y + row.height / 2}, row.values[i], small_type));
    }
}

}  // namespace

BoxRow box_row(std::string title, std::string unit, std::vector<std::string> values) {
    double longest = 3 * small_type;
    for (const std::string& value : values) longest = std::max(longest, text_width(value, small_type));
    return {std::move(title), std::move(unit), std::move(values), longest + padding};
}

double box_rows_height(const std::vector<BoxRow>& rows) {
    double height = 0;
    for (const BoxRow& row : rows) height += row.height;
    return height;
}

double draw_box_rows(Drawing& drawing, const BoxTable& table, double top) {
    const sheet::Stroke rule = {thin, Ink::Line, sheet::Dash::Solid};
    double y = top;
    drawing.line({0, y}, {table.right, y}, rule);
    for (const BoxRow& row : table.rows) {
        draw_name(drawing, row, y + row.height / 2);
        draw_values(drawing, table, row, y);
        y += row.height;
        drawing.line({0, y}, {table.right, y}, rule);
    }
    for (const double x : {0.0, table.left, table.right}) drawing.line({x, top}, {x, y}, rule);
    return y;
}

}  // namespace fallwright::record
