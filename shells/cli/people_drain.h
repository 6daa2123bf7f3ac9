// people_drain: the answer to "What does this pipe do?" as tables and sentences.
#pragma once

#include <string>

#include "desk/drain_answer.h"

namespace fallwright::cli {

std::string drain_text(const DrainAnswer& answer);

// What each rule that speaks of the pipe wants and has, and which bore this fall would do for; then a
// sentence with its source for each verdict of flatter or steeper, and what does not apply. `held_to`: its
// sentence comes first; may be null.
std::string rules_text(const std::vector<drain::CleansingVerdict>& rules, const drain::CleansingCase& pipe,
                       const preset::CleansingRule* held_to, Unit unit);

}  // namespace fallwright::cli
