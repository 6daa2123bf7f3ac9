// settle: what the contract says about entries among themselves, once all are read.
//
// Duplicate names (the first stands) and references to nothing are left out with a finding; a reading without
// a set-up takes the last one in time order; a point read on a line gets its name; sights by default;
// readings in time order.
#pragma once

#include "book/book.h"

namespace fallwright {

void settle_entries(Book& book);

}  // namespace fallwright
