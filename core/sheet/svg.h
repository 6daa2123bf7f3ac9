// svg: a mark to stand before the text of a table's cell. Inside sheet only.
#pragma once

#include <string>

#include "sheet/document.h"

namespace fallwright::sheet {

// Hidden from who listens: the text beside it says the same.
std::string svg_mark(const Cell& cell);

}  // namespace fallwright::sheet
