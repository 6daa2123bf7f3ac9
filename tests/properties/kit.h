// kit: instruments, staffs, receivers and surfaces of a random book, as entries. Two instruments, "L1" a
// laser and "N1" an optical level; one staff "E1" and one receiver "R1".
#pragma once

#include <vector>

#include "properties/random_book.h"

namespace fallwright::properties {

std::vector<Json> random_kit(Draw& draw, const Wishes& wishes);

}  // namespace fallwright::properties
