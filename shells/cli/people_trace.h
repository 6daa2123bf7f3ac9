// people_trace: what moves, and which verdicts change, if one value of a book is out.
#pragma once

#include <string>

#include "desk/trace_answer.h"

namespace fallwright::cli {

std::string trace_text(const Evaluation& evaluation, const TraceAnswer& answer);

}  // namespace fallwright::cli
