// pegs: offset pegs (hubs) along a line, and what to write on them.
//
// Every point read on the line as `peg`. cut is the peg's top less the design of the profile there (taken
// square to the line, so level across): positive to go down. On the peg itself a line is drawn `line_down`
// below the top, so that from it down to the invert is `whole`, a whole decimetre (in feet a tenth of a
// foot):
//   whole = cut rounded down to a tenth of the book's unit, line_down = cut - whole, 0 to below a tenth
// A peg below the design has a negative cut, and then whole is the fill. At a chamber whose inverts differ a
// peg has a row for each. Metres, one standard deviation by the joint covariance of peg and design.
#pragma once

#include <string>
#include <vector>

#include "setout/setout.h"

namespace fallwright {

struct PegRow {
    NameId point = no_name;
    double ch = 0, off = 0;
    std::string what;  // the surface it is cut to
    double level = 0, design = 0;
    double cut = 0, sd = 0;
    double whole = 0, line_down = 0;
};

// By chainage, then from left to right. Pegs whose level or design is not known are left out.
std::vector<PegRow> peg_card(const SetoutBasis& basis, std::size_t line);

// The same, of one difference: a tenth of `unit`, which is metres in the book's unit.
double whole_tenths(double cut, double unit);

}  // namespace fallwright
