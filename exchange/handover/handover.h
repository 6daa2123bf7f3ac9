// handover: what goes from one program to another: points, lines, pipes and surfaces, in no file's own form.
//
// A format reads a file into this or writes one from it; gather.h makes it from a book, entries.h makes
// entries of a book from it. So every format says the same of a book, and what a round trip must keep is
// written down in one place.
//
// Metres, east and north, chainages along a line; NaN where something is not known. `line` is the line of the
// file something stands at, from 1; 0 where there is no file.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "ground/triangulation.h"
#include "quantity/unit.h"

namespace fallwright::handover {

using ground::EastNorth;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
inline bool known(double value) {
    return !std::isnan(value);
}

// What is meant by the level of a point.
//   Held      a benchmark, fixed as given
//   Measured  found by measuring, with an uncertainty
//   Wanted    a level to be set out; nobody has measured it
enum class Standing : std::uint8_t { Held, Measured, Wanted };

struct Point {
    std::string name;
    double e = unknown, n = unknown;
    double level = unknown, sd = unknown;
    Standing standing = Standing::Measured;
    std::string note;  // where it is from, in the words of the file
    // On a line instead of the grid: its name, chainage, offset to the right.
    std::string on;
    double ch = unknown, off = 0;
    std::uint32_t line = 0;

    bool placed() const { return known(e) && known(n); }
};

// A corner of a profile: the level there, on both sides where it steps, and the length of its vertical curve.
struct Corner {
    double ch = 0;
    double before = unknown, after = unknown;
    double curve = 0;
};

struct Pipe {
    double from = 0, to = 0;
    double bore = unknown, wall = unknown;
};

// Invert levels at a chamber, the level of its cover, its size along the line.
struct Chamber {
    std::string name;
    double ch = 0;
    double in = unknown, out = unknown, cover = unknown, size = unknown;
};

struct Line {
    std::string name, use;  // use: a word of the book, or empty
    double start = 0;       // chainage at the beginning of the plan
    std::vector<EastNorth> plan;
    std::vector<Corner> profile;
    std::vector<Pipe> pipes;
    std::vector<Chamber> chambers;
    enum class Flow : std::uint8_t { Unknown, With, Against };
    Flow flow = Flow::Unknown;  // which way the water runs along the chainage
    std::uint32_t line = 0;
};

struct Spot {
    std::string name;  // empty: it has none
    double e = 0, n = 0, level = 0;
};

struct Surface {
    std::string name;
    std::vector<Spot> spots;
    std::vector<std::array<std::int32_t, 3>> faces;     // counterclockwise, of spots
    std::vector<std::vector<std::int32_t>> breaklines;  // chains of spots
    std::uint32_t line = 0;
};

struct Handover {
    std::string title, datum;
    Unit unit = Unit::Metre;  // lengths are metres all the same; how they are written
    std::vector<Point> points;
    std::vector<Line> lines;
    std::vector<Surface> surfaces;

    bool any() const { return !points.empty() || !lines.empty() || !surfaces.empty(); }
    // Whether some of it lies on the grid; a map holds nothing else.
    bool any_placed() const;
};

}  // namespace fallwright::handover
