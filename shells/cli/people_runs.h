// people_runs: the drains of a book as tables and sentences.
#pragma once

#include <string>

#include "desk/drain_book_answer.h"

namespace fallwright::cli {

std::string drains_text(const DrainBookAnswer& answer);

// A few lines for each drain, as evaluate shows them; "" where there is none.
std::string drains_in_short(const Evaluation& evaluation);

// The pipe that would follow a line.
std::string follow_text(const DrainBookAnswer& answer);

// What is dug for a run, and what is carted away.
std::string trench_text(const drain::Trench& trench, Unit unit);

}  // namespace fallwright::cli
