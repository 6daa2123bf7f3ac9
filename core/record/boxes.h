// boxes: the rows of figures under a section, as sections have them: names on the left, values turned so
// that many stand side by side. Inside record only.
#pragma once

#include <string>
#include <vector>

#include "record/drawing.h"

namespace fallwright::record {

// One row of the boxes.
struct BoxRow {
    std::string title, unit;
    std::vector<std::string> values;  // one a column; "" for none
    double height = 0;                // mm
};

struct BoxTable {
    double left = 0, right = 0;   // of the values, mm; names of rows stand from 0 to left
    bool level = false;           // values stand level, where they have room
    std::vector<double> columns;  // where the values stand
    std::vector<BoxRow> rows;
};

// Space for names of rows, to the left of the boxes.
constexpr double gutter = 33;
// Least distance of two values in the boxes.
constexpr double column_apart = 3.1;

// Whether every value has room beside its neighbours without being turned.
bool fits_level(const BoxTable& table);
// Sets the heights of rows: turned values need as much as the longest.
void lay_rows(BoxTable& table, bool level);
double box_rows_height(const std::vector<BoxRow>& rows);
// From `top` down; where they end.
double draw_box_rows(Drawing& drawing, const BoxTable& table, double top);

}  // namespace fallwright::record
