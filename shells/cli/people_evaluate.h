// people_evaluate: an evaluation as tables and sentences, the answer first.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

std::string evaluation_text(const Evaluation& evaluation, bool for_surveyor);
// Levels, pages and closures only.
std::string levels_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
