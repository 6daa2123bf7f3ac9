// shapes: what symbols, hatches and dashes are made of, once for all renderers, so that a figure is the same
// lines in SVG and in PDF.
//
// Units: millimetres as in figure.h. Results come from + - * / sqrt wherever a figure has its usual angles
// (multiples of 45 degrees), so that both builds cut hatches at the same places.
#pragma once

#include <vector>

#include "sheet/document.h"

namespace fallwright::sheet {

// The unit vector (x right, y down) of a turn anticlockwise from pointing right.
At direction_of(double degrees);

// The symbol as lines, areas, arcs and letters in painting order. Its extent is `size`; wedges, bars, rings,
// crosses, dots and chambers are centred on `at`, triangles that stand on a point (Benchmark, LevelMark) have
// that point at `at`. Ink as the symbol's.
std::vector<Item> parts_of(const Symbol& symbol);

// The paper that a label with `cleared` clears behind it, in all renderers the same whatever font they have.
Area clearing_of(const Label& label);

// The mark of a cell in a square of 1, its corner at 0, 0.
Symbol mark_of(const Cell& cell);

// The lines of an area's pattern, cut to its outline and holes (even-odd); a dot is a line of no length.
// Lines of all areas of a figure lie on one grid, so that neighbours with one pattern look like one. Empty
// for None, Solid and Tint, and for areas without extent. A pattern of more than 20,000 lines (no sheet is so
// large) is left out or cut short.
struct HatchLine {
    At from, to;
};
std::vector<HatchLine> hatch_of(const Area& area);
constexpr Stroke hatch_stroke(Ink ink) {
    return {0.13, ink, Dash::Solid};
}
constexpr double dot_diameter = 0.35;  // mm, of the pattern Dots

// Lengths drawn and left out by turns, mm; empty for Solid.
std::vector<double> dashes_of(const Stroke& stroke);

}  // namespace fallwright::sheet
