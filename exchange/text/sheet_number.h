// Numbers of a sheet: lengths exactly as typed, in the unit of their column.
//
// A booked 1.700 is kept as 1700 x 10^-3 with its unit: the last digit booked says how finely a result was
// given, and the figure reaches the book without passing through a binary fraction.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/decimal.h"
#include "exchange/text/decimal_mark.h"
#include "exchange/text/length_unit.h"

namespace fallwright::text {

// A length: digits x 10^-places of a unit. |digits| < 1e14, places 0..7. LengthUnit::None: not given.
struct Amount {
    std::int64_t digits = 0;
    std::int8_t places = 0;
    LengthUnit unit = LengthUnit::None;

    explicit operator bool() const { return unit != LengthUnit::None; }
    bool negative() const { return digits < 0; }
    Amount magnitude() const;
    Amount negated() const { return {-digits, places, unit}; }

    // To the nearest 1e-7 m.
    Decimal length() const;
    // The step of the last of `at_places` decimals in this unit, rounded up to 1e-7 m.
    Decimal step(int at_places) const;
    // A JSON number in the unit of the book, Metre or Foot. Exact, but from metric units to feet: there to
    // 1e-8 ft, which comes back to the same 1e-7 m.
    std::string written(LengthUnit book) const;
};

enum class NumberFault : std::uint8_t {
    None,
    NotANumber,
    Ambiguous,   // 1,234: a decimal comma or thousands
    TooLarge,    // beyond 7 digits before the decimal mark, or 1e9 m
    SheetError,  // #REF!, ##### and the like
};

struct ParsedAmount {
    NumberFault fault = NumberFault::None;
    Amount amount;
};

// Taken: a sign (also the typographic minus), digits in groups of three parted by the other mark, a space or
// an apostrophe, decimals after the mark, a unit after the number (it wins over `unit`). Beyond 7 decimals
// rounded half away from zero, and zeros at the end go: spreadsheets write 29.515000000000001. One group by
// the other mark and no decimals (1,234) is ambiguous unless the mark is stated; without a mark every point
// and comma is. No exponents.
ParsedAmount parse_amount(std::string_view text, DecimalMark mark, LengthUnit unit);

// Typographic minus signs, spaces and quotes as those of the keyboard.
std::string keyboard_signs(std::string_view text);

// Cells that stand for nothing: empty, a dash or two.
bool stands_for_nothing(std::string_view text);

}  // namespace fallwright::text
