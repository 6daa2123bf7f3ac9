// The name of one column: what the column holds and the unit that stands with the name.
#pragma once

#include <string>
#include <string_view>

#include "exchange/text/length_unit.h"
#include "exchange/text/sheet_words.h"

namespace fallwright::text {

struct SheetColumn {
    Column holds = Column::Unknown;
    LengthUnit unit = LengthUnit::None;
    std::string name;  // as in the sheet, on one line
    bool refused_unit = false;
};

// "BS (mm)", "RL [ft]", "Dist m", "FS/m", "Level in m". What else stands in brackets, "Rise (+)", is passed
// over.
SheetColumn read_column_name(std::string_view name);

}  // namespace fallwright::text
