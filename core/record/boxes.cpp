#include "record/boxes.h"

#include <algorithm>

namespace fallwright::record {

namespace {

using sheet::Ink;

constexpr double padding = 2;  // mm, above and below the values together
constexpr double middle_of_type = 0.36;

void draw_name(Drawing& drawing, const BoxRow& row, double middle) {
    const double y = middle + small_type * middle_of_type;
    const std::size_t split = row.title.rfind(' ');
    const double room = gutter - 3;
    const bool one_row = text_width(row.title + "  " + row.unit, small_type) < gutter - 2;
    if (one_row || split == std::string::npos) {
        drawing.text(label({1, y},
                           cut_to(row.title, small_type, room - text_width(row.unit + " ", small_type)),
                           small_type));
    } else {
        drawing.text(
            label({1, middle - 0.4}, cut_to(row.title.substr(0, split), small_type, room), small_type));
        drawing.text(label(
            {1, middle + small_type + 0.4},
            cut_to(row.title.substr(split + 1), small_type, room - text_width(row.unit + "  ", small_type)),
            small_type));
    }
    drawing.text(label({gutter - 1, y + (one_row ? 0 : small_type * 0.5 + 0.2)}, row.unit, small_type,
                       sheet::Anchor::End));
}

void draw_values(Drawing& drawing, const BoxTable& table, const BoxRow& row, double y) {
    const double middle = y + row.height / 2, down = small_type * middle_of_type;
    for (std::size_t i = 0; i < row.values.size(); ++i) {
        // A tick where the column goes on, so that the eye keeps to it and no line runs through a figure.
        const double x = table.columns[i];
        drawing.line({x, y}, {x, y + padding / 2 - 0.2}, {hair, Ink::Faint, sheet::Dash::Solid});
        if (table.level) {
            drawing.text(label({x, middle + down}, row.values[i], small_type, sheet::Anchor::Middle));
        } else {
            drawing.text(turned({x + down, middle}, row.values[i], small_type));
        }
    }
}

double longest(const BoxRow& row) {
    double most = 0;
    for (const std::string& value : row.values) most = std::max(most, text_width(value, small_type));
    return most;
}

}  // namespace

bool fits_level(const BoxTable& table) {
    double widest = 0;
    for (const BoxRow& row : table.rows) widest = std::max(widest, longest(row));
    const double apart = widest + 1.6;
    double before = table.left - apart / 2;
    for (const double x : table.columns) {
        if (x - before < apart) return false;
        before = x;
    }
    return table.right + apart / 2 - before >= apart;
}

void lay_rows(BoxTable& table, bool level) {
    table.level = level;
    for (BoxRow& row : table.rows)
        row.height = (level ? small_type * 1.4 : std::max(3 * small_type, longest(row))) + padding;
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
