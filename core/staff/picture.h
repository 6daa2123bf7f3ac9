// The face of a staff drawn around one reading, for a terminal and as SVG.
//
// What is drawn: the whole blocks of a window around the reading, kept between the staff's foot and its end,
// and the light's line at the reading. An upright staff has its foot down; an inverted one is turned half
// round, figures and all, as it looks on site. Nothing is told by colour alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/decimal.h"
#include "quantity/unit.h"

namespace fallwright::staff {

struct View {
    Decimal reading;  // the figure at the light: 0 or more, at most `length`, which is above 0
    Unit unit = Unit::Metre;
    bool inverted = false;
    std::optional<Decimal> length;  // of the staff
    // How much of the face is seen; absent: 30 blocks, 0.30 m or 0.30 ft. At least one block is.
    std::optional<Decimal> window;
};

enum class Ink : std::uint8_t {
    Ascii,  // # black, % red
    Blocks  // the same in Unicode block characters
};

// One line a block, the light's block pointed at, a last line on how figures stand. UTF-8, lines end with \n.
std::string picture_text(const View& view, Ink ink);

// A complete SVG 1.1 document fragment with its own viewBox (10 units a block), title and description; no
// script, no style sheet, no ids, so that several may stand in one page.
std::string picture_svg(const View& view);

}  // namespace fallwright::staff
