// people_evenness: how even a surface is, and cross-sections as laid, as people read them.
#pragma once

#include <string>

#include "evenness/evenness.h"

namespace fallwright::cli {

// "" where nothing is taken of the line. judge: of that line.
std::string evenness_text(const EvennessBasis& basis, const LineJudge& judge);

}  // namespace fallwright::cli
