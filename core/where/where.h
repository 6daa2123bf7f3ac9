// where: places of points and set-ups, and for each reading where its staff stands as the instrument sees it.
//
//   u, v  metres along the main axis and to its right, from the instrument (in a set-up without a place: from
//   the
//         first point read in it that has one)
//   d     metres from the instrument to the staff
// along and across win over places, places win over dist (a finding where they differ by more than 10 %). A
// body without bearing or towards has its axes north and east. Nothing known: d is the assumed sight, and
// that is said. All reading metres; total over every book.
#pragma once

#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "where/plan_line.h"

namespace fallwright {

struct SightPlace {
    double u = 0, v = 0;
    double d = 0;
    bool has_uv = false;
    bool assumed_d = false;
};

struct Where {
    std::vector<Spot> points;  // by NameId of the point
    // By index in Book::setups:
    std::vector<std::int32_t> tripods;  // the set-up whose tripod this is: itself, or where `head` leads
    std::vector<Spot> setups;           // of its tripod
    std::vector<Heading> headings;      // the main axis; unknown: not oriented by the set-up itself
    // Readings of it give along and across, which orients the body too; planned ones where nothing is read.
    std::vector<bool> aligned;
    std::vector<Spot> origins;  // where u and v count from: its place, else the first point that has one
    double assumed_sight = 0;   // metres
    // By index in Book::readings, planned ones too:
    std::vector<SightPlace> readings;
    Findings findings;
};

// assumed_sight in metres, for readings that nothing says how far.
Where locate(const Book& book, double assumed_sight);

// How a staff at a spot will be seen from a set-up, by the rules of a reading there. Without a place of the
// set-up d is the assumed sight.
SightPlace seen_from(const Where& where, std::size_t setup, const Spot& spot);

// The distance booked: dist, or 100 x (top - bottom) of three wires; absent where neither is given.
Maybe booked_distance(const Reading& reading);

}  // namespace fallwright
