// people_check: what was laid, judged, as tables and sentences: what is out first.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

std::string check_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
