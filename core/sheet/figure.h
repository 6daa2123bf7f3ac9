// figure: a drawing on paper, as values: lines, areas, text and symbols in millimetres.
//
// Whoever draws decides what is seen and where; whoever renders (SVG here, PDF in exchange) puts exactly that
// on its page, so that one figure looks the same everywhere. Nothing here computes a level.
//
// Units: millimetres of paper, x to the right, y DOWN from the figure's upper left corner. Everything lies
// within 0..width, 0..height. Order is painting order: later items lie over earlier ones. Nothing is told by
// ink alone: high, low and on grade have a symbol and a word of their own.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace fallwright::sheet {

struct At {
    double x = 0, y = 0;  // mm
};

// What a colour repeats; a renderer has one value for each, also for black and white (see ink_colour).
enum class Ink : std::uint8_t {
    Line,    // the drawing's own black
    Faint,   // grids, boxes, what lies behind
    Dig,     // ochre: too high, cut
    Fill,    // violet: too low, fill
    Ground,  // what was there
    Design,  // what is wanted
    Water,   // the inside of a pipe, standing water
    Paper    // white, to cover
};

enum class Dash : std::uint8_t { Solid, Dashed, DashDot, Dotted };

struct Stroke {
    double width = 0.25;  // mm; 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 after the pattern of ISO 128-2
    Ink ink = Ink::Line;
    Dash dash = Dash::Solid;
};

// Hatches are drawn by each renderer from one definition (hatch_of), so that they are the same lines.
enum class Pattern : std::uint8_t { None, Solid, Tint, HatchUp, HatchDown, CrossHatch, Dots };

struct Polyline {
    std::vector<At> points;  // two or more
    Stroke stroke;
    bool closed = false;
};

struct Area {
    std::vector<At> outline;             // three or more; closed by itself; even-odd
    std::vector<std::vector<At>> holes;  // each three or more
    Ink ink = Ink::Faint;
    Pattern pattern = Pattern::Tint;
};

struct Arc {
    At centre;
    double radius = 1;                          // mm
    double from_degrees = 0, to_degrees = 360;  // clockwise from +x, as seen on paper
    Stroke stroke;
};

enum class Anchor : std::uint8_t { Start, Middle, End };

struct Label {
    At at;              // the end, middle or start of the baseline
    std::string text;   // UTF-8, one line
    double size = 2.5;  // mm, of the type (em); 1.8 is the least that prints well
    Anchor anchor = Anchor::Start;
    double turn = 0;  // degrees anticlockwise: 90 reads upwards
    Ink ink = Ink::Line;
    bool bold = false;
    bool cleared = false;  // the paper is cleared behind it, so that no line runs through the figures
};

// `size` is the extent of each. Triangles that stand on a point have it at the symbol's place; all others are
// centred there. What they are made of: shapes.h.
enum class Mark : std::uint8_t {
    Benchmark,  // a triangle on its point, filled
    SetUp,      // a tripod from above
    Point,      // a small upright cross
    Spot,       // a dot
    Chamber,    // a square
    LevelMark,  // an open triangle that stands on its point, for a level on a section
    DigWedge,   // points down
    FillWedge,  // points up
    OnBar,      // a level bar
    Undecided,  // a ring: too close to call
    NorthArrow,
    FlowArrow  // along `turn`
};

struct Symbol {
    At at;
    Mark mark = Mark::Point;
    double size = 2.5;  // mm
    double turn = 0;    // degrees anticlockwise from pointing right (FlowArrow), up (all others)
    Ink ink = Ink::Line;
};

struct Item {
    std::variant<Polyline, Area, Arc, Label, Symbol> what;
    // What on the book this shows, so that a screen can be asked about it by tapping: a point, an entry's id,
    // a set-up; "" for none. Becomes the attribute data-about in SVG.
    std::string about;
};

struct Figure {
    std::string title;  // under the figure; also the SVG's <title>
    std::string said;   // what it shows, in a sentence or two, for who cannot see it; the SVG's <desc>
    double width = 0, height = 0;  // mm
    std::vector<Item> items;
};

}  // namespace fallwright::sheet
