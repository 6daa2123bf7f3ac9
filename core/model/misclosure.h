// misclosure: how large a misclosure may be by what is believed of the instrument, before any reading is
// judged.
#pragma once

#include "model/model.h"
#include "page/page.h"

namespace fallwright {

// One standard deviation of a closure's misclosure, metres: its sights' own noise, their feet, what set-ups
// and instruments share along the way, the benchmarks at its ends. NaN where a sight of the way is not in the
// model.
double misclosure_sd(const Book& book, const Model& model, const Closure& closure);

}  // namespace fallwright
