// The face of a staff: which block, colour and figure lies where.
//
// Metric face (facts of the E pattern: levelling tutorial 1.7 of the University of the Highlands and
// Islands):
//   blocks of 10 mm, dark and light in turn from the foot, dark first
//   figures every 100 mm, each naming the line it stands on
//   the lower 50 mm of each 100 mm joined into an E, forward in even decimetres, reversed in odd ones
//   black in the even metres, red in the odd ones
// Face in feet and tenths (common practice, no source):
//   blocks of 0.01 ft, dark and light in turn from the foot, dark first; none joined
//   figures every 0.1 ft; those of whole feet red, all else black
// Colour only repeats what the figure says; the face reads the same in black and white.
//
// A line belongs to the block above it: at 1.430 begins the fourth block past 1.4.
#pragma once

#include <cstdint>
#include <string>

#include "base/decimal.h"
#include "quantity/unit.h"

namespace fallwright::staff {

constexpr std::int64_t blocks_per_figure = 10;

enum class Paint : std::uint8_t { Black, Red };
// The upright of an E, on the reader's left or right of an upright staff.
enum class Spine : std::uint8_t { None, Left, Right };

struct Block {
    std::int64_t number = 0;  // from 0 at the foot
    Decimal bottom, top;      // bottom is the smaller figure, whichever way the staff is held
    bool dark = false;
    Spine spine = Spine::None;
    Paint paint = Paint::Black;
};

struct FaceFigure {
    Decimal at;        // the line it names
    std::string text;  // "1.4", "4.7", "5.0"
    Paint paint = Paint::Black;
};

// 10 mm or 0.01 ft.
Decimal block_height(Unit unit);

// The block that holds a figure of the staff, 0 or more.
std::int64_t block_of(Decimal figure, Unit unit);
// number >= 0.
Block block(std::int64_t number, Unit unit);
// The figure on the line under that block; only where figure_stands_under().
bool figure_stands_under(std::int64_t block_number);
FaceFigure figure_under(std::int64_t block_number, Unit unit);

// A figure for people in the book's unit: millimetres, 0.01 ft, or finer where it is finer (5 decimals at
// most).
std::string figure_text(Decimal figure, Unit unit);

// How to read it: "the light is 2 mm above the top of the third block past 1.4: 1.432". Upside down, above
// and top change with below and bottom, and the sentence says how it is booked. figure >= 0.
std::string how_to_read(Decimal figure, Unit unit, bool inverted);

}  // namespace fallwright::staff
