// runs: which set-ups follow one another on one page.
//
// Inside page only.
#pragma once

#include <vector>

#include "staff/figures.h"
#include "where/where.h"

namespace fallwright {

// One set-up of a run: its readings in the order they are booked, back sight first.
struct RunSetup {
    std::int32_t setup = 0;
    std::vector<std::uint32_t> readings;
    NameId carried = no_name;  // the point the next set-up of the run stands on; no_name for the last
};

// Set-ups joined by common points, each standing on a point its predecessor read. A sloped set-up is a run by
// itself.
struct Run {
    bool sloped = false;
    std::vector<RunSetup> setups;
};

// Runs that two crews keep at the same time do not mix: a run goes on from its own last set-up only.
struct Runs {
    std::vector<Run> runs;               // in order of their first sights
    std::vector<std::int32_t> left_out;  // set-ups without a back sight to a known point
};

// Matched planes are in no run and not left out: they have no page. Total over every book.
// A set-up's readings that its plane can use: on a sloped or matched plane those with a place, in a body
// whose axes are known. A sight that the book leaves open is back for a point already known and read first in
// the set-up, else inter; what is left out is neither first nor makes a point known.
Runs find_runs(const Book& book, const Figures& figures, const Where& where);

}  // namespace fallwright
