// plan_words: steps and places of a plan in words.
#pragma once

#include <string>

#include "desk/plan_answer.h"

namespace fallwright::cli {

// "30.000, R3.000" on a line, "1012.3 E 2040.0 N" on the grid; "" where it is not known.
std::string place_words(const PlanAnswer& answer, const Spot& spot);
// "read BM2 from P3", "turn the body half round at P2, P4".
std::string advice_words(const PlanAnswer& answer, const Advice& advice);
// "A, B, C and 4 more".
std::string names_words(const PlanAnswer& answer, const std::vector<NameId>& names);

}  // namespace fallwright::cli
