// Places along and across a line as people write them.
#pragma once

#include <optional>
#include <string_view>

#include "exchange/text/sheet_number.h"

namespace fallwright::text {

// Chainages as written: 40, 40.25, 0+040.5 (three digits after the plus: thousands), 4+00 (two: hundreds),
// each also after ch, sta, stn, km and the like. Nothing where the text is none.
std::optional<Amount> parse_chainage(std::string_view text, DecimalMark mark, LengthUnit unit);

// Offsets, right positive: -3.5, R 3.5, 3.5 L, CL (0). Nothing where the text is none.
std::optional<Amount> parse_offset(std::string_view text, DecimalMark mark, LengthUnit unit);

}  // namespace fallwright::text
