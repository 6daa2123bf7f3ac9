// The run of levels as lines of a book.
#pragma once

#include <string>
#include <vector>

#include "exchange/text/level_run.h"
#include "exchange/text/sight_lengths.h"

namespace fallwright::text {

// In order: the book (where a new one is wanted), an opening remark, the sheet's title lines as remarks, the
// instrument, the line, the benchmarks, then set-ups and readings as booked, places and remarks of a row
// beside its readings.
std::vector<std::string> book_lines(const LevelRun& run, const SightLengths& lengths,
                                    const std::vector<std::string>& titles, const SheetForm& form);

}  // namespace fallwright::text
