// rails: sight rails over the line, for working down to the design with a traveller (boning rod).
//
//   rail level = design of the profile + length of the traveller
// so that eye, both rails and the traveller's cross-head are in one line when its foot is at the design. A
// rail is nailed at its height above the ground there, or above a peg beside it:
//   height = rail level - level of ground or peg
// Source: any textbook of site surveying; published exercises PL-01, PL-03, PL-05, PL-12. Rails stand at
// every row of the table; at a chamber whose inverts differ one for each. Over a vertical curve no two rails
// hold between them. Metres, NaN where no ground was read.
#pragma once

#include <string>
#include <vector>

#include "setout/pegs.h"
#include "setout/setout.h"

namespace fallwright {

struct RailOverPeg {
    NameId point = no_name;
    double height = 0;
};

struct Rail {
    double ch = 0;
    std::string what;  // the surface it serves
    double level = 0;
    double above_ground = NAN;
    std::vector<RailOverPeg> above_pegs;  // at that chainage, from left to right
};

struct Rails {
    std::vector<Rail> rails;  // by chainage
    Findings findings;
};

// traveller: metres, above 0.
Rails sight_rails(const SetoutBasis& basis, const SetoutWish& wish, double traveller);

}  // namespace fallwright
