// csv_tables: the tables of a book as CSV. Inside door only.
#pragma once

#include <string>

#include "exchange/door/export_book.h"

namespace fallwright::door {

// The text; the finding: an unknown table, or what the desk says of the line or set-up asked for.
Result<std::string> csv_table(const desk::OpenBook& open, const ExportWish& wish);

}  // namespace fallwright::door
