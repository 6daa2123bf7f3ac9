// Rows that speak of an inverted staff and book the reading upright.
//
// An inverted reading is booked with a minus and kept so. "inv" may also mean the invert of a pipe, read on
// an upright staff: so a positive reading beside such a word is asked about, unless a booked result shows
// that the staff stood upright.
#pragma once

#include <optional>

#include "exchange/text/booked_check.h"

namespace fallwright::text {

// `plane`: the height of collimation, where known, of the set-up of the sight in `column`. True where the
// booked level is that of an inverted staff.
bool ask_inverted(const Record& record, Column column, std::optional<Decimal> plane, const BookedCheck& check,
                  const SheetForm& form, SheetFindings& findings);

}  // namespace fallwright::text
