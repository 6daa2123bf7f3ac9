// ink: the colour and the grey of each Ink, and the lines of each hatch, in one place for all renderers.
#pragma once

#include <vector>

#include "sheet/figure.h"

namespace fallwright::sheet {

// "#rrggbb". Ochre and violet are told apart by people who see no red or green; on a black and white print
// both differ from black and from each other by their pattern and symbol, never by grey alone.
const char* ink_colour(Ink ink);

struct Hatch {
    double spacing;  // mm between lines, or between dots
    double turn;     // degrees anticlockwise of its lines
    bool dots;
};
// None for None, Solid and Tint; two for CrossHatch.
std::vector<Hatch> hatches_of(Pattern pattern);

// How much of the ink a tint lets through, 0..1.
constexpr double tint_share = 0.18;

}  // namespace fallwright::sheet
