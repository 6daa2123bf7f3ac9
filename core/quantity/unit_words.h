// Words and signs for units of length: m, mm, ft, ', in, ", ... Used inside quantity only.
//
// Factors are exact by definition: 0.3048 m a foot, 25.4 mm an inch, 5280 ft a mile.
#pragma once

#include <optional>

#include "quantity/scan.h"

namespace fallwright {

// Metres in a unit, as a quotient of whole numbers so that 1432 mm is 1.432 to the last bit.
struct UnitOfLength {
    double multiply = 1;
    double divide = 1;
    bool imperial = false;
    double metres(double count) const { return count * multiply / divide; }
};

// Takes a unit of length if one stands there.
std::optional<UnitOfLength> take_unit(Cursor& cursor);

}  // namespace fallwright
