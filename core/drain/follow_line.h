// follow_line: the pipe of least dig under a line that was read, such as a road.
//
// The ground is the surface `what` of the line on the line itself, straight between its readings, from the
// first to the last; follow.h finds the invert. Grades meet at `breaks`; where none are given at the line's
// chambers, where it has none at the readings. The trench is as wide as trench.h says.
//
// Which way the water runs: as asked, as the line says, else as the ground's ends fall. The outfall: as
// given; else an invert found by dip at the lower end; else what a join fixes there; else none.
//
// Each count of grades from 1 on is told as long as it digs less than the one before, by a hundredth at
// least. Cover is kept as read: at the places that hold the pipe down it is as probably less as it is more;
// `sure` is the cover to ask for that it truly is there with the confidence of the book. Metres, m3.
#pragma once

#include <string>
#include <vector>

#include "drain/follow.h"
#include "drain/trench.h"

namespace fallwright::drain {

struct FollowWish {
    std::size_t line = 0;
    std::string what;     // empty: finished where a road's was read at two places or more, else ground
    Pipe pipe;            // bore, wall, bedding
    double cover = 0;     // over the crown
    FollowLimits limits;  // outfall -infinity: by dip or join, if any; grades: at most
    Flow flow = Flow::Default;
    std::vector<double> breaks;  // chainages; empty: chambers, else readings
    double saving = 0.01;        // 0 to 1
    TrenchRule trench;
};

// By chainage: where the ground was read and where grades meet.
struct FollowRow {
    double ch = 0;
    double ground = 0, ground_sd = 0;
    double invert = 0, cover = 0, depth = 0;
    bool meets = false;  // an end, or where two grades meet
};

struct FollowChoice {
    Followed followed;          // its x are chainages, by the way the water runs
    std::vector<double> falls;  // of its grades, by the way the water runs
    std::vector<FollowRow> rows;
    Dug dug;
};

struct FollowedLine {
    std::string what;
    bool with_chainage = true;
    double from = NAN, to = NAN;        // chainages
    double outfall = NAN;               // NaN: none
    std::string outfall_from;           // the point of a dip, the line joined; empty: as given or none
    std::vector<FollowChoice> choices;  // one grade first; none where no pipe keeps the limits
    double sure_cover = NAN;
    // Where no pipe reaches the outfall: by how much at best, and the least fall with which one would.
    double shortfall = 0, least_fall_that_reaches = NAN;
    Findings findings;
};

FollowedLine follow_line(const SetoutBasis& basis, const FollowWish& wish);

}  // namespace fallwright::drain
