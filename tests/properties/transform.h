// transform: the same book said another way, or the same site lying otherwise.
#pragma once

#include <functional>

#include "properties/random_book.h"

namespace fallwright::properties {

// Calls `change` for every number of the book's entries with the key it stands under; numbers in lists have
// their list's key.
void for_each_number(RandomBook& book,
                     const std::function<void(const std::string& key, Json& number)>& change);

// All benchmarks higher by `shift`, metres.
RandomBook raised(const RandomBook& book, double shift);
// Every length in feet.
RandomBook in_feet(const RandomBook& book);
// Every uncertainty times `factor`.
RandomBook with_sds_times(const RandomBook& book, double factor);
// Entries in another order; the book's own line stays first, amendments and strikes stay last.
RandomBook mixed(const RandomBook& book, Draw& draw);
// The grid turned clockwise by `degrees` about its origin, then moved.
RandomBook turned_site(const RandomBook& book, double degrees, double east, double north);
// Every height, rise and gradient negative, staffs turned end for end.
RandomBook upside_down(const RandomBook& book);
// Line D1, 70 m long, from its other end: chainage c becomes 70 - c, right becomes left.
RandomBook reversed_line(const RandomBook& book);

}  // namespace fallwright::properties
