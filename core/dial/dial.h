// dial: what to set on the laser, so that its plane of light is the plane of a line, or one through points.
//
// For a line: one dial for each stretch that is one plane (Design::planes). No crossfall: level across. A
// camber gives one for each side. For points: two with a crossfall, or the plane that fits three and more
// best, from the levels the model found, with the uncertainty of both grades from their joint covariance.
//
// The main axis is the set-up's; one without bearing or towards is told to aim along the line (with
// chainage), or from the first point to the second. What cannot be set is refused, each with a finding:
//   an optical level; no way to tell how main axis and line lie; a grade beyond the machine's limit; the line
//   beyond its range; a curve; a twist (crossfall that changes along the line); a gradient that two points
//   close together do not tell; points on one line; an axis whose limit is 0 (locked) where both are needed,
//   or where the other is over 60 degrees off the line, since its grade, gradient / cos(angle), grows without
//   end.
// A locked axis with a line that asks for no crossfall: the other is set to gradient / cos(angle); that plane
// holds along the line only.
//
// Metres, ratios, degrees; NaN where something cannot be told. Total over every book.
#pragma once

#include <optional>
#include <vector>

#include "book/book.h"
#include "design/design.h"
#include "dial/plane.h"
#include "model/model.h"

namespace fallwright {

// Of a line with a camber one plane holds on one side.
enum class DialSide : std::uint8_t { Both, Left, Right };

// The farthest placed point of the stretch whose level is known, and what a staff there must read once the
// plane is set. Only where the light meets the staff. Before distance counts: levels that come from elsewhere
// than the very plane to be proved come first, then points the staff's foot finds to a millimetre, then those
// along the stretch.
struct DialProof {
    NameId point = no_name;
    double staff = 0, sd = 0;  // of the reading to expect, its own noise and foot included
};

// Taking up the fall between two points read on the flat plane: once the plane is set both read the mark, at
// one go. near: the point nearer to the laser.
struct TakeUp {
    NameId near = no_name, far = no_name;
    double mark = 0;
};

struct Dial {
    std::size_t setup = 0;        // index in Book::setups
    double from = NAN, to = NAN;  // chainages of the stretch
    std::vector<NameId> points;   // of a plane through points

    Axes grades;       // exact, rising along main and to the right
    Axes grades_sd;    // of a plane found; 0 of one designed
    Axes keyed;        // in the machine's sign, side and unit, rounded to its step; NaN beyond its limit
    Axes set;          // what the plane is once that is keyed in, rising along main and to the right
    Axes in_book;      // the set-up's plane there; NaN on a matched axis
    double aim = NAN;  // bearing for the main axis

    double farthest = NAN;       // from the laser, along the stretch
    double rounding_cost = NAN;  // of half a step on each axis that slopes, there
    double aim_cost = NAN;       // of one degree beside the aim, the worse way, there
    std::optional<DialProof> proof;
    std::optional<TakeUp> take_up;

    NameId line = no_name;     // none: through points
    NameId surface = no_name;  // a measured one, whose best plane it is
    DialSide side = DialSide::Both;
    bool aim_is_advice = false;  // the set-up in the book has no bearing
    bool reachable = true;       // within limits and range
    bool as_in_book = false;     // the plane in the book is the one wanted, within a step
};

struct Dials {
    std::vector<Dial> dials;
    Findings findings;
};

// What a dial is made from; all of one evaluation, and they outlive the call.
struct DialBasis {
    const Book& book;
    const Designs& designs;
    const Where& where;
    const Model& model;
};

// line, setup: indices in Book::lines and Book::setups.
Dials dial_line(const DialBasis& basis, std::size_t line, std::size_t setup);
// crossfall: of two points, rising to the right of the way from the first to the second. A point without a
// place or level is refused (unknown-reference).
Dials dial_points(const DialBasis& basis, const std::vector<NameId>& points, double crossfall,
                  std::size_t setup);

// A measured surface: the points whose best plane is to be set; all have a place and a level.
struct DialSurface {
    NameId name = no_name;
    std::vector<NameId> points;
};
Dials dial_surface(const DialBasis& basis, const DialSurface& surface, std::size_t setup);

// Of every `want` with a set-up and a line or a surface, each pair once, in the order of the book.
// A surface that is not among `surfaces` cannot be set, and has said so.
Dials dial_wants(const DialBasis& basis, const std::vector<DialSurface>& surfaces);

}  // namespace fallwright
