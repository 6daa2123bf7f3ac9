// table_fit: how large a table's type is and how wide its columns are on paper.
//
// Widths are guessed by type.h, a little generously, so that what fits here fits with the fonts at hand.
// Units: millimetres. Columns that do not wrap get what their longest cell needs; a heading may break between
// words; those that wrap share what is left.
#pragma once

#include <vector>

#include "sheet/document.h"

namespace fallwright::sheet {

// How a table comes onto the sheet.
struct TableFit {
    double size = 0;             // of the type
    std::vector<double> widths;  // of the columns with their padding
    bool turned = false;         // it needs the sheet turned
    bool fits = true;  // false: even so columns that do not wrap had to be cut narrower than their text
};

// Sizes that are tried, the first that fits is taken: on the upright sheet the first three, then all on the
// turned one. 2.1 mm is 6 point, the least that people read without complaint.
constexpr double table_sizes[] = {3.0, 2.75, 2.5, 2.3, 2.1};
constexpr double cell_padding = 1.1;  // left and right of each cell
constexpr double mark_room = 1.2;     // of a mark and its gap, in parts of the size

// A table without columns has no widths and fits.
TableFit fit_of(const Table& table, PaperSize paper);

}  // namespace fallwright::sheet
