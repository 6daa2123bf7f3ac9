// roughness_check: the index of each stretch of a row that was read closely enough. Inside evenness only.
#pragma once

#include "evenness/rows.h"

namespace fallwright {

// Sets roughness and roughness_refused of a row along a road.
void check_roughness(const EvennessBasis& basis, const RowOfReadings& row, EvenRow& to);

}  // namespace fallwright
