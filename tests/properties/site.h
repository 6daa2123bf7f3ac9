// site: the invented site that random books are booked on. Heights and grid in metres.
#pragma once

#include <string>
#include <vector>

#include "properties/random_book.h"

namespace fallwright::properties {

// Where a staff can stand.
struct Spot {
    Json target;       // the fields of a reading that name it
    std::string name;  // of the point
    double height = 0;
    bool soffit = false;   // overhead: read with the staff upside down
    bool on_grid = false;  // its e and n are known to the book
    double e = 0, n = 0;
    std::string what;  // of a reading there, where the site has one
    bool benchmark = false;
};

struct Site {
    std::vector<Spot> spots;
    std::vector<Json> lines;  // entries: lines, places
};

Site random_site(Draw& draw, const Wishes& wishes);

// Rounded to the millimetre, as a person books.
double millimetres(double metres);

}  // namespace fallwright::properties
