// setout_answer: the station table of a line, and the cards that go with it.
//
// The stage setout computes all of it; here a request is read and looked up in the book, and the answer
// written. What is not in the book is a fault of the request; what cannot be told is a finding of the answer.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/json_out.h"
#include "base/result.h"
#include "desk/options.h"
#include "evaluation/evaluation.h"
#include "setout/pegs.h"
#include "setout/rails.h"
#include "setout/rod.h"

namespace fallwright {

// The evaluation stays with the answer: names and units come from its book. A card is there where it was
// asked for.
struct SetoutAnswer {
    std::shared_ptr<const Evaluation> evaluation;
    SetoutTable table;
    // Cards.
    double traveller = NAN;  // metres; NaN where none was given
    std::optional<std::vector<RodCard>> rod;
    std::optional<std::vector<PegRow>> pegs;
    std::optional<std::vector<Rail>> rails;
    std::vector<Caution> cautions;
    Findings findings;  // of the book, then of what was asked
};

// Options: line (required), every, setup, what (names of surfaces); traveller (a length) for sight rails, rod
// and pegs (true) for those cards. Lengths without a unit are in the book's.
Result<SetoutAnswer> setout_of(const std::shared_ptr<const Book>& book, desk::Options& options);
// The JSON of api/schema/v1/setout.schema.json; lengths in the book's unit.
std::string setout_json(const SetoutAnswer& answer);

// The member "setout" of evaluate: a table for each line that the book wants one of.
void write_setout(const Evaluation& evaluation, JsonOut& out);

}  // namespace fallwright
