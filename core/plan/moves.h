// moves: what could be changed in a layout. Inside plan only.
#pragma once

#include <functional>

#include "plan/outlook.h"

namespace fallwright {

struct Move {
    Change change = Change::ReadAgain;
    std::vector<NameId> setups, points;
    Spot place;
    Layout layout;  // as changed
};

// What the moves of a search know besides the layout; all outlive it.
struct Grounds {
    Workbook& work;
    std::vector<Spot> places;  // where an instrument may stand
    // Benchmarks whose place is known, and where.
    std::vector<PlannedSight> benchmarks;
    std::vector<double> bearings;  // of the main axis at each place: along the line where there is one
    NameId line = no_name;
};

Grounds grounds_of(Workbook& work, const PlanWish& wish, const std::vector<Spot>& places);

// Calls `visit` for each change that may better the layout, always in the same order; one layout lives at a
// time. worst: the station that is worst in it.
using Visit = std::function<void(const Move&)>;
void each_move(Grounds& grounds, const Layout& layout, NameId worst, const Visit& visit);
// Those that only add one reading: what can show a slip that nothing shows.
void each_check(Grounds& grounds, const Layout& layout, const Visit& visit);

// Shared with the proposal of a layout.
PlannedSight sight_to(const Layout& layout, std::size_t stand, NameId point, const Spot& spot);
// One more change point between two set-ups; returns its name.
NameId join_stands(Grounds& grounds, Layout& layout, std::size_t a, std::size_t b);
std::size_t add_stand(Grounds& grounds, Layout& layout, std::size_t place);
// The stand nearest to a spot but `except`; not_named where none has a place.
std::size_t nearest_stand(const Layout& layout, const Spot& spot, std::size_t except = not_named);

}  // namespace fallwright
