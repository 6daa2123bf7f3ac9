// people_story: the job on one screen, before any table: what probably went wrong, the fall that is there,
// the fall wanted, what to set on the laser, what the staff must read, what was laid and how sure that is.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

// For a book in which nothing is wanted only what probably went wrong: there the tables are the story.
std::string story_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
