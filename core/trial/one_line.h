// one_line: on which side of the instrument each peg stands, where the pegs stand in one line with it.
//
// Inside trial only.
#pragma once

#include <vector>

#include "trial/shots.h"

namespace fallwright {

// Fills u of shots without facing: their distance with the sign of their side, one side being that of the
// station's first peg. Two pegs are as far apart as the stations agree on: the sum of their distances from a
// station between them, the difference from one beyond.
void lay_in_one_line(std::vector<UsableShot>& shots);

}  // namespace fallwright
