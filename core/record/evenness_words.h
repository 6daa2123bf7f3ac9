// evenness_words: how even a surface of a line is, and its cross-sections as laid, in sentences and a table.
#pragma once

#include <vector>

#include "evenness/evenness.h"
#include "record/told.h"

namespace fallwright::record {

// Nothing where nothing is taken of the line. judge: of that line. most_rows: a longer table of sections is
// only named; 0: no table is too long.
std::vector<Told> evenness_told(const EvennessBasis& basis, const LineJudge& judge, std::size_t most_rows);

}  // namespace fallwright::record
