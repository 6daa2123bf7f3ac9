// propose: a first layout along a line, where nobody has planned one. Inside plan only.
//
// Stations at whole multiples of an interval and at the line's own points; set-ups at some of the places in
// their order along the line, each station read from the nearest one, neighbours joined by a change point
// midway, the nearest benchmark read from the nearest set-up. A search betters it.
#pragma once

#include "plan/moves.h"

namespace fallwright {

// Readings of the line's stations, with their spots; a finding where the line has none that can be told.
std::vector<PlannedSight> stations_of_line(Workbook& work, const PlanWish& wish, Findings& findings);

// Up to most_places of them beside the line, and one on the way from a benchmark far off it.
std::vector<Spot> places_beside(const PlanBasis& basis, const PlanWish& wish,
                                const std::vector<PlannedSight>& stations);
// Where nothing says where the instrument may stand: beside the planned points of a line, else where set-ups
// are.
std::vector<Spot> places_of_layout(const PlanBasis& basis, const Layout& layout);

// From `count` of the places, evenly chosen; empty where no benchmark has a place.
Layout first_layout(Grounds& grounds, const std::vector<PlannedSight>& stations, std::size_t count);

}  // namespace fallwright
