// read_tolerance: limits of levels, falls and evenness as a book writes them. Inside book only.
#pragma once

#include "book/fields.h"

namespace fallwright {

// Checks what the entry itself can show; presets are settled once all entries are read.
void read_tolerance(Fields& fields, Tolerance& to);

}  // namespace fallwright
