// Length: a distance or height difference as a quantity, and the ways the trade writes one.
//
// Inside: metres, double. A bare number is no Length and cannot be added to one: a unit is always named, by a
// constructor or by the book's unit. Sums that must be exact (readings, levels) are taken as Decimal.
//
// Text, after spaces and capitals are evened out (u: the default unit, metres or feet of 0.3048 m):
//   1.432  1.432 m  1432 mm  143.2 cm  0.9 km        4.70 ft  56 in  8 3/8 in  1/2 in
//   4 ft 8 3/8 in   4' 8 3/8"   4'-8"                feet whole, inches below 12, both units written
//   -3.045                                           a sign in front holds for the whole
// Only the decimal point is taken, wherever the machine stands; a comma is refused, since 1,432 may
// mean 1.432 or 1432. No exponents. Up to 18 digits are read, later decimals are dropped. Correctly rounded
// up to 15 digits. Largest magnitude: Decimal::limit_metres. Every refusal is a finding bad-number that
// quotes the text and says the cure.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "quantity/unit.h"

namespace fallwright {

class Length {
  public:
    constexpr Length() = default;
    static constexpr Length metres(double value) { return Length(value); }
    static constexpr Length feet(double value) { return Length(value * metres_per_foot); }
    // A bare number of a book in that unit.
    static constexpr Length in(Unit unit, double value) {
        return unit == Unit::Foot ? feet(value) : metres(value);
    }

    constexpr double metres() const { return metres_; }
    constexpr double feet() const { return metres_ / metres_per_foot; }
    constexpr double in(Unit unit) const { return unit == Unit::Foot ? feet() : metres(); }

    constexpr Length operator-() const { return Length(-metres_); }
    constexpr Length operator+(Length other) const { return Length(metres_ + other.metres_); }
    constexpr Length operator-(Length other) const { return Length(metres_ - other.metres_); }
    constexpr Length operator*(double factor) const { return Length(metres_ * factor); }
    constexpr auto operator<=>(const Length&) const = default;

  private:
    explicit constexpr Length(double value) : metres_(value) {}
    double metres_ = 0;
};

// A length and its uncertainty, one standard deviation; no sd: none was given, which is not an sd of 0.
struct Measured {
    Length value;
    std::optional<Length> sd;
};

Result<Length> parse_length(std::string_view text, Unit unit);

// As parse_length, optionally followed by +-, +/- or the sign for it and the standard deviation, 0 or more:
// "54.88 +- 0.05", "54.88 m +- 5 cm". An sd without a unit has the value's. A value without a unit is in the
// default unit, also where the sd names one ("54.88 +- 5 mm"); if that one is of the other system (feet
// against metres) the text is refused, it may mean either.
Result<Measured> parse_measured(std::string_view text, Unit unit);

// A chainage, as a length along the line from its zero:
//   metres   0+900 is 900 m      kilometres + metres, three figures before the decimal point
//   feet     9+00 is 900 ft      stations of 100 ft + feet, two figures before the decimal point
//   both     any text of parse_length: 900, 900 m
// The count of figures must fit the book's unit: 9+00 in a metric book is refused, since it may mean stations
// of 100 m or of 100 ft. A sign in front holds for the whole: -0+010.5 lies 10.5 m before zero.
Result<Length> parse_chainage(std::string_view text, Unit unit);

// The same back: "0+900", "9+00", with `places` decimals (0..10), by the printing rule (rounded before it is
// split: 999.9996 m with three places is 1+000.000).
std::string chainage_text(Length chainage, Unit unit, int places);

}  // namespace fallwright
