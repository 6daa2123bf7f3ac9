// dial_answer: what to set on the laser, for a line of the book or a plane through points.
//
// The whole book is evaluated for it: the proving reading and planes through points need its levels. Nothing
// is computed here; the stage dial says what to set, and what cannot be.
#pragma once

#include <memory>
#include <string>

#include "base/json_out.h"
#include "base/result.h"
#include "desk/options.h"
#include "evaluation/evaluation.h"

namespace fallwright {

// The evaluation stays with the answer: names, units and the keypad come from its book.
struct DialAnswer {
    std::shared_ptr<const Evaluation> evaluation;
    Dials dials;
    Findings findings;  // of the book, then of what was asked
};

// What the stage dial needs of an evaluation, which outlives it.
DialBasis dial_basis(const Evaluation& evaluation);

// Options: setup (required), and line, or surface, or points (two or more names) with crossfall (of two;
// default 0).
Result<DialAnswer> dial_of(const std::shared_ptr<const Book>& book, desk::Options& options);
// The JSON of api/schema/v1/dial.schema.json.
std::string dial_json(const DialAnswer& answer);

// The member "dials" of evaluate: one for each stretch of the lines that the book wants.
void write_dials(const Evaluation& evaluation, JsonOut& out);

}  // namespace fallwright
