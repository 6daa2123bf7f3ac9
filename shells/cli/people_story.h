// people_story: the job on one screen, before any table: the fall that is there, the fall wanted, what to set
// on the laser, what the staff must read, what was laid and how sure that is.
#pragma once

#include <string>

#include "desk/evaluation.h"

namespace fallwright::cli {

// Empty for a book in which nothing is wanted: there the tables are the story.
std::string story_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
