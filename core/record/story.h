// story: the job in a few lines, before any table: what probably went wrong, the fall that is there, the fall
// wanted, what to set on the laser, what the staff must read, what was laid and how sure that is.
//
// The record shows it as facts under "In short", the command line as lines before its tables. Chooses and
// words; computes nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evaluation/evaluation.h"

namespace fallwright::record {

// "" as a label: goes on with the line before.
struct StoryLine {
    std::string_view label;
    std::string text;
};

constexpr std::string_view went_wrong = "went wrong", fall_wanted = "the fall wanted",
                           fall_laid = "the fall laid";

// Of a book in which nothing is wanted only what probably went wrong: there the tables are the story. Whether
// anything went wrong is told only where the evaluation sought it.
std::vector<StoryLine> story_of(const Evaluation& evaluation);

}  // namespace fallwright::record
