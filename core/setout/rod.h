// rod: one rod with a mark for every surface of a run, so that nobody adds up in the trench.
//
// The marks lie where the surfaces lie over the trench bottom (or the lowest surface that is known): bed,
// invert, crown, collar of pipes; layers and finished of a road. Where the light runs parallel to the line
// (targets of the profile differ by no more than one_target_spread over the stretch) each has a clamp too:
// the receiver's place on the rod when its foot stands on that surface at the right level,
//   clamp = target of the profile - height of the surface above the profile
// One card for each run of equal pipes; a line without pipes has one for all of it. Metres; NaN where
// there is no such plane.
#pragma once

#include <string>
#include <vector>

#include "setout/setout.h"

namespace fallwright {

struct RodMark {
    std::string what;
    double height = 0;  // above the foot of the rod
    double clamp = NAN;
};

struct RodCard {
    double from = 0, to = 0;     // chainages
    std::vector<RodMark> marks;  // from the foot up; the first is the foot, at 0
    double sd = NAN;             // of a clamp, the largest
    double spread = NAN;         // of the targets over the stretch
};

// By chainage; none where the line has only one surface. Why there are no clamps is a finding of set_out().
std::vector<RodCard> rod_cards(const SetoutBasis& basis, const SetoutWish& wish);

}  // namespace fallwright
