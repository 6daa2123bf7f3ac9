// setout: what to work to along a line: design levels, what the staff must read, how deep to dig.
//
//   design        level wanted of a surface (`what`) at a chainage and offset
//   target        what an upright staff on it will read: the row of a reading as the model has it, with every
//                 error estimated and curvature in (model/predict.h)
//   sd            of the target: joint covariance of plane and design, and the noise of that one reading
//   dig           newest ground there - design of dig_to: positive to dig, negative to fill
//   dig_to        formation where bedding or layers are known, else the surface of the profile
//   trench_depth  from the higher of the ground on the line and at its edges down to the trench bottom
//   cover         a chamber's cover level, else the ground, above the crown; negative: the pipe stands out
//
// Rows stand at whole multiples of `every` within the profile and at the line's own points (Design::
// own_points); chainages closer than least_chainage are one, the own point's. Offsets: 0, and with a
// crossfall the edges. At a chamber whose inverts differ laid becomes laid in and laid out. trench_depth and
// cover belong to pipes, on the line itself.
//
// What cannot be told is NaN, with one finding for each reason and the cure. A level plane gives targets
// without places, at the assumed sight; a sloped one needs the place of the set-up and its bearing.
// Metres, ratios, one standard deviation. Total over every book.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "book/book.h"
#include "design/design.h"
#include "fall/fit.h"
#include "model/model.h"

namespace fallwright {

// What a table is made from; all of one evaluation, and they outlive the call.
struct SetoutBasis {
    const Book& book;
    const Designs& designs;
    const Where& where;
    const Model& model;
    const std::vector<LineFalls>& found;  // by index in Book::lines
};

constexpr std::size_t no_setup = SIZE_MAX;

// Indices in Book::lines and Book::setups. every: absent for own points only. whats: none for the profile's.
struct SetoutWish {
    std::size_t line = 0;
    std::size_t setup = no_setup;
    Maybe every;
    std::vector<std::string> whats;
};

struct SetoutRow {
    double ch = 0, off = 0;
    std::string what;
    double design = NAN;
    double target = NAN, sd = NAN;
    double dig = NAN, dig_sd = NAN;
    std::string dig_to;  // empty where the design has nothing to dig to
    double trench_depth = NAN, trench_depth_sd = NAN;
    double cover = NAN;
};

// A plane parallel to the line: every row of that surface and offset has this target, within spread.
struct OneTarget {
    std::string what;
    double off = 0;
    double target = 0, spread = 0;
};

// Targets that differ by this much are one: people read a staff to the millimetre.
constexpr double one_target_spread = 0.001;
// A table of more rows than a foreman could walk is a slip of the keyboard; it is cut to the own points.
constexpr std::size_t most_stations = 20000;

struct SetoutTable {
    std::size_t line = 0, setup = no_setup;
    std::vector<SetoutRow> rows;         // by chainage, offset from left to right, whats as asked
    std::vector<OneTarget> one_targets;  // of two rows and more
};

struct Setout {
    std::vector<SetoutTable> tables;
    Findings findings;
};

// One table.
Setout set_out(const SetoutBasis& basis, const SetoutWish& wish);
// One for each `want` with a line, in the order of the book.
Setout set_out_wants(const SetoutBasis& basis);

// The surface that a staff is read on to find the profile of a line: laid for pipes, else finished.
std::string staff_surface(const LineEntry& line);

}  // namespace fallwright
