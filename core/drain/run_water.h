// run_water: what the pipes of a run carry, and what the rules want of them. Inside drain only.
#pragma once

#include "drain/run.h"

namespace fallwright::drain {

// Fills kinds, and of each pipe its kind and whether its fall as laid meets the rules held to.
void add_water(const Book& book, const Job& job, bool all_rules, Run& run);

}  // namespace fallwright::drain
