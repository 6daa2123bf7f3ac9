// vertices: the corners of a line's profile, from its profile points and the inverts of its chambers.
//
// Levels are carried through in order of chainage. A profile point has its level, lies `by` under a point, or
// is reached by its gradient (rise per length) from the corner before. A chamber with inverts is a corner
// too, and its inverts override the profile: the profile steps there. The gradient after a chamber counts
// from the side on which that stretch begins: its `out` where water runs with chainage, its `in` where it
// runs against. An invert that is not given: out is in; in is what the profile would be there without the
// chamber. Where a line has no profile, its chambers alone make one.
//
// Which side of a chamber is in and which is out, and which end is downstream, depends on how water runs
// (flow.h).
#pragma once

#include <array>
#include <vector>

#include "book/line_entry.h"
#include "design/design_level.h"

namespace fallwright {

// Chainages closer than this are one, metres: names of points on a line have three decimals.
constexpr double least_chainage = 0.0005;

struct ProfileVertex {
    double ch = 0;
    DesignLevel before, after;  // on the side of lower and of higher chainage; they differ where it steps
    DesignLevel typed;          // what its profile point alone says; absent where only a chamber is
    double curve = 0;           // length of the vertical curve, metres, 0: a corner
};

// Levels that joins give to the ends, which override all else: at the lower and at the higher chainage.
// Absent: as the line itself says.
using FixedEnds = std::array<DesignLevel, 2>;

// Whether the level changes there at once; true also where only one side is known.
bool steps(const ProfileVertex& vertex);

// Whether every point of the profile lies beyond the one before. No vertices are laid where it does not.
bool profile_in_order(const LineEntry& line);

// The chambers that count, by chainage: of several at one chainage the first, and none beyond the ends of
// the profile. Pointers into `line`.
std::vector<const Chamber*> usable_chambers(const LineEntry& line);

// By rising chainage; none where the profile is out of order or there is nothing to start from.
std::vector<ProfileVertex> lay_vertices(const LineEntry& line, bool with_chainage, const FixedEnds& fixed);

}  // namespace fallwright
