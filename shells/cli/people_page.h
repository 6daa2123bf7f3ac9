// people_page: the booked pages as they stand in a level book, with the check under them.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

std::string pages_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
