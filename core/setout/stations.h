// stations: where a table of a line has its rows.
//
// At whole multiples of an interval within the profile and at the line's own points (Design::own_points);
// chainages closer than least_chainage are one, the own point's. Metres; total over every design.
#pragma once

#include <string>
#include <vector>

#include "fall/dig_to.h"
#include "fall/falls.h"
#include "setout/setout.h"

namespace fallwright {

// By rising chainage, each once. too_many: whole multiples of every would be more than most_stations.
struct Stations {
    std::vector<double> chainages;
    bool too_many = false;
};
Stations stations_of(const Design& design, const Maybe& every, const LevelOf& level_of);

// Left edge, 0, right edge; the edges only where the line has a crossfall.
std::vector<double> offsets_of(const Design& design);

// Whether the profile steps at a chamber there: laid has two levels, as when its two inverts lean on
// different points. False where the line has no design.
bool steps_at(const Design& design, double ch);

// The surfaces of one row of the table: laid becomes laid in and laid out at a step.
std::vector<std::string> surfaces_at(const Design& design, const std::vector<std::string>& whats, double ch);

}  // namespace fallwright
