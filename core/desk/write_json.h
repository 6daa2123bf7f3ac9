// write_json: an evaluation as the JSON of contract section 3. Numbers by the printing rule, lengths in the
// book's unit.
#pragma once

#include <string>

#include "base/json_out.h"
#include "desk/evaluation.h"

namespace fallwright {

constexpr int format_version = 1;

std::string evaluate_json(const Evaluation& evaluation);
std::string levels_json(const Evaluation& evaluation);

// Pieces that other answers share.
void write_findings(JsonOut& out, const Findings& findings);
std::string error_json(const Finding& finding);
std::string_view unit_word(Unit unit);

}  // namespace fallwright
