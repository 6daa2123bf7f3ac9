// people_suspects: what probably went wrong, the reading that decides, what to do about it, in the words of
// the site; of a book in which nothing shows, what would not have shown.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

// path: of the book, for the commands that are shown. Evaluations without suspects give "".
std::string suspects_text(const Evaluation& evaluation, const std::string& path);

// "very likely: HIGH taken for LOW at reading ... (see ...)": the most probable suspect from 0.1 on, else "".
std::string suspect_line(const Evaluation& evaluation);

}  // namespace fallwright::cli
