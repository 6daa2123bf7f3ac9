// write_json: an evaluation as the JSON of contract section 3. Numbers by the printing rule, lengths in the
// book's unit.
#pragma once

#include <string>

#include "base/json_out.h"
#include "evaluation/evaluation.h"

namespace fallwright {

// Of the answers; rises only when a reader of the old one would misread the new one.
constexpr int format_version = 1;

// The whole, and the parts that a level book and a check of what was laid show. Schemas: api/schema/v1/
// evaluate, levels and check. Into a JsonOut with a sink a book of a million readings is written without
// holding its answer.
void write_evaluation(const Evaluation& evaluation, JsonOut& out);
void write_levels(const Evaluation& evaluation, JsonOut& out);
void write_check(const Evaluation& evaluation, JsonOut& out);
// The suspects verb: what probably went wrong, what would not have been noticed.
void write_suspicions(const Evaluation& evaluation, JsonOut& out);
// One of them as a text.
std::string written(const Evaluation& evaluation, void (*write)(const Evaluation&, JsonOut&));

// Pieces that other answers share.
void write_findings(JsonOut& out, const Findings& findings);
// The member "cautions".
void write_cautions(JsonOut& out, const std::vector<Caution>& cautions);
std::string error_json(const Finding& finding);
std::string_view unit_word(Unit unit);

}  // namespace fallwright
