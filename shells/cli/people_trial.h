// people_trial: checks of instruments as people read them, on a screen or on paper.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

// Each check: whether it passes, what it found and could not see, its shots with what they should have read;
// then what readings take from all checks of an instrument, and what to look at. It says that an instrument
// was checked on site, and is no calibration certificate.
std::string trials_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
