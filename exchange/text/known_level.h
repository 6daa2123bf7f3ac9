// Levels of a row: what is booked in the column of levels, and whether the row gives its point a known level.
//
// Known is a point whose level is given, a benchmark:
//   the column Known holds the level, or a yes (x, ja, oui, BM) beside the column of levels;
//   the cell of the level says so: "29.66 known";
//   the remark says so: "known", "BM2 RL 29.66 known", "OBM2 RL 29.66" (a benchmark with RL and a figure). A
//   figure with a decimal mark in the remark is the level, else the column of levels has it. "not known" is
//   not.
#pragma once

#include <string_view>

#include "exchange/text/sheet_number.h"

namespace fallwright::text {

struct LevelCells {
    std::string_view level;
    std::string_view known;
    std::string_view remark;
    std::string_view point;
    DecimalMark decimal_mark;
    LengthUnit level_unit = LengthUnit::Metre;
    LengthUnit known_unit = LengthUnit::Metre;
};

struct KnownLevel {
    Amount booked;  // from the column of levels
    Amount known;
    bool known_is_booked = false;  // the known level was taken from the column of levels, or equals it
    NumberFault level_fault = NumberFault::None;
    NumberFault known_fault = NumberFault::None;
    bool known_without_level = false;
};

KnownLevel read_known_level(const LevelCells& cells);

}  // namespace fallwright::text
