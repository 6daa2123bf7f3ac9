// cover_check: where a table shows pipes that stand out of the ground.
#pragma once

#include "setout/setout.h"

namespace fallwright {

// One finding for a line of pipes whose crown (its invert, where the crown is not known) lies above the
// ground.
void check_cover(const Book& book, const SetoutTable& table, Findings& findings);

}  // namespace fallwright
