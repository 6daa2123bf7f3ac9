// settle: what the contract says about entries among themselves, once all are read.
//
// Duplicate names (the first stands) and references to nothing are left out with a finding; a reading without
// a set-up takes the last one in time order (and is left out where that one is); a point read on a line gets
// its name; readings in time order.
//
// Inside book only.
#pragma once

#include "book/book.h"

namespace fallwright {

void settle_entries(Book& book);

// Its parts, in order. Names: duplicates, benchmarks, references, shared heads. Tolerances: what they take
// from presets. Points: those read on lines, relaid surfaces. Order: the last set-up, bare clamps, readings
// by time.
void settle_names(Book& book);
void settle_tolerances(Book& book);
void settle_points(Book& book);
void settle_order(Book& book);

}  // namespace fallwright
