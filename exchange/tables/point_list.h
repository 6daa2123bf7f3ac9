// point_list: a list of points or of setting out, as people keep it in a spreadsheet.
//
// Columns by name, in any order, with the unit in the name ("E (m)", "RL [ft]"); the way a sheet is read, its
// encodings, separators, marks of decimals and limits are those of level books (text/level_csv.h).
//   point, east, north and level    points with a place; the level is known or wanted
//   chainage, offset and level      setting out along a line, which the options name: levels at offset 0
//   become
//                                   its profile, named points get a place on the line
// Whether a level is known (someone has measured it) or wanted (someone is to set it out) decides everything
// about it, so it is never guessed: a column "known level", "design level" or one of standard deviations says
// it, or the options do, else the file is refused. Columns called x and y are refused: which of them points
// north differs from country to country.
//
// Pure and total; nothing is half imported. Findings name row and column as the spreadsheet counts them.
#pragma once

#include <string>
#include <string_view>

#include "exchange/handover/handover.h"
#include "exchange/text/level_csv.h"

namespace fallwright::tables {

enum class Levels : std::uint8_t { Unsaid, Known, Wanted };

struct ListOptions {
    text::CsvOptions sheet;  // unit, sheet_unit, separator, decimal_mark, line, limits
    Levels levels = Levels::Unsaid;
};

struct ReadList {
    handover::Handover found;
    Findings findings;  // with an error there is nothing in `found` to use
};

// Whether the text has columns of such a list, and none of a level book's sights. bytes: as in the file.
bool is_point_list(std::string_view bytes, const text::CsvOptions& options);

ReadList read_point_list(std::string_view bytes, const ListOptions& options);

}  // namespace fallwright::tables
