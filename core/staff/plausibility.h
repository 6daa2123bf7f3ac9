// Is one reading possible with this staff and this receiver? Pure, from plain values; knows no other reading.
//
// Invariants
//   1. What judge() finds of severity error leaves the reading out; all else is evaluated.
//   2. A reading that is possible and as fine as the staff gives no finding.
//   3. Turning the sign of `staff` or setting `inverted` says the same and gives the same findings.
#pragma once

#include <optional>

#include "base/decimal.h"
#include "base/finding.h"
#include "quantity/unit.h"

namespace fallwright::staff {

// A staff's length where its entry gives none.
inline constexpr Decimal assumed_length = Decimal::ticks(100'000'000);  // 10 m

// What is known of the kit; absent: not known, nothing is judged by it.
struct Kit {
    std::optional<Decimal> length;      // of the staff; absent: assumed_length
    std::optional<Decimal> least_step;  // least step read on it, above 0
    std::optional<Decimal> window;      // half range of the receiver's figures
    double reading_sd = 0.001;  // of one wire, metres, above 0; a millimetre: common practice, no source
};

// One reading as booked. The combinations that make a value (one of staff; mark with one of high, low,
// offset; three wires top, staff, bottom) are the book's to check, not judged here.
struct AsRead {
    std::optional<Decimal> staff;              // negative: inverted
    std::optional<Decimal> mark;               // where the receiver's mark stands (a clamp's place too)
    std::optional<Decimal> high, low, offset;  // what the receiver shows
    std::optional<Decimal> top, bottom;        // the outer wires, with staff the middle one
    bool inverted = false;
    Unit unit = Unit::Metre;  // for the sentences
};

// Findings in the order below, `about` left empty for the caller, who knows the entry's id:
//   high-and-low     both are given; nothing further of the mark is judged
//   out-of-range     high or low below 0
//   beyond-staff     a figure read, a mark, or the light worked out from it, below 0 or above the length
//   outside-window   high, low or offset beyond the receiver's window
//   finer-than-step  a figure read or a mark that is no whole multiple of the least step
//   wire-order       the wires' figures do not fall (upside down: fall or rise) in the order top, middle,
//   bottom,
//                    or lie on both sides of 0; the spread is not judged then
//   wire-spread      the two intervals differ by more than 3 sqrt(6) reading_sd. Their difference is
//                    top - 2 middle + bottom, of variance (1 + 4 + 1) sd^2; three times that is no chance.
Findings judge(const AsRead& reading, const Kit& kit);

}  // namespace fallwright::staff
