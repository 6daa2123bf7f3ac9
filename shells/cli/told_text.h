// told_text: what the record tells, as the terminal shows it.
#pragma once

#include <string>
#include <vector>

#include "record/told.h"
#include "shells/cli/table.h"

namespace fallwright::cli {

// Each sentence on a line, two blanks for every step of its depth and of `depth`; tables likewise.
std::string told_text(const std::vector<record::Told>& pieces, int depth);

// With the two blanks that every table has.
std::string table_text(const sheet::Table& table);

}  // namespace fallwright::cli
