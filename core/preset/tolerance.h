// What a surface may be off: levels, falls, gaps under a straightedge, irregularities counted along it.
//
// A row is one surface of one specification; `table` names the rows that belong together, so that a book may
// name the table for a line and each of its surfaces finds its row by the words in `surfaces`. A row says
// only what its source says; what it leaves open is NaN, or empty. Millimetres, metres along, ratios.
//
//   below, above     of the level against its design (below negative)
//   fall_min, _max   of the gradient, positive the way the water runs; a fall_min of 0 refuses backfall
//   gap under over   a straightedge of length `over` laid anywhere (by the distance of its high spots:
//   flatness.h) irregularities   how often the surface may be off by `size` under a 3 m straightedge, in
//   `length`
//
// Rows from memory give a hint and no verdict. The specification that governs the work always comes first,
// and figures in the book's own tolerance win over a row's.
#pragma once

#include <limits>
#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct IrregularityCount {
    double size_mm = 0, length_m = 0;
    int most = 0;
};

struct TolerancePreset {
    static constexpr double open = std::numeric_limits<double>::quiet_NaN();

    std::string_view name;
    std::string_view table;     // empty: stands alone
    std::string_view surfaces;  // words by which a surface of the book finds the row: "|finished|surface|"
    double below_mm = open, above_mm = open;
    double fall_max = open;
    double gap_mm = open, over_m = open;
    std::span<const IrregularityCount> irregularities = {};
    std::string_view use;
    Source source;
    double fall_min = open;

    bool serves(std::string_view surface) const;
};

std::span<const TolerancePreset> tolerance_presets();

// By its own name; null where there is none.
const TolerancePreset* find_tolerance(std::string_view name);
bool is_tolerance_table(std::string_view name);
// The row of a table for a surface; null where it has none.
const TolerancePreset* find_tolerance(std::string_view table, std::string_view surface);

void list_tolerances(std::vector<Listed>& all);

}  // namespace fallwright::preset
