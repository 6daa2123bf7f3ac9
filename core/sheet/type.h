// type: how wide a text will be, so that drawings and tables can be laid out without a font at hand.
//
// All renderers ask for one sans serif family (type_family) whose members share these widths; the first that
// a machine has is taken. The widths are those of the core fonts of PDF that every such family copies
// (advance widths in 1/1000 of the size, from memory; exchange/native's test holds them against the font
// embedded there). Characters beyond ASCII are taken a little too wide rather than too narrow.
#pragma once

#include <string_view>

#include "sheet/figure.h"

namespace fallwright::sheet {

// As CSS and SVG write it: families of equal widths first, then what any machine has.
constexpr std::string_view type_family = "Liberation Sans, Arial, Helvetica, DejaVu Sans, sans-serif";

// Of the type's size: over the baseline for capitals and figures, and for all letters; under it for tails.
constexpr double cap_height = 0.72, ascent = 0.78, descent = 0.22;

// Width in the unit of `size` of UTF-8 on one line. Broken UTF-8 counts as one wide character a byte.
double text_width(std::string_view text, double size, bool bold = false);

// A rectangle, mm; x to the right, y down.
struct Box {
    double left = 0, top = 0, right = 0, bottom = 0;
    bool meets(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};
// What a label covers (of one that is turned: the upright rectangle around it).
Box box_of(const Label& label);

}  // namespace fallwright::sheet
