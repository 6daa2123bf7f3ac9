// drain_book_answer: the drains of a book in full, and the pipe that would follow a line.
//
// The stage drain computes all of it (drain/run.h, trench.h, follow_line.h); here a request is read and
// looked up in the book. What is not in the book is a fault of the request; what cannot be told is a finding.
//
// Options
//   line            that line only; else every line for use as a drain that has pipes or chambers
//   setup           whose light the staff readings are from; else the one that stands
//   cover           a length or a preset: judged by it instead of the book's rule; with follow: kept
//   rule            a preset of self-cleansing the job is held to
//   width           of the trench, a length or a preset; batter, surround; spoil (a ratio or a preset), load
//                   (a volume in cubic units of the book): instead of the book's rules trench and spoil
//   follow          true: the pipe of least dig under the line, with cover, fall_min (or by rule), fall_max,
//                   outfall, inlet (levels), grades (at most, default 3), breaks (chainages), bore, wall,
//                   bedding (default: the line's first pipe's), what, direction (with or against the
//                   chainage)
// Lengths without a unit are in the book's; a bore of 10 and more in a book in metres is millimetres.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/options.h"
#include "drain/follow_line.h"
#include "drain/trench.h"
#include "evaluation/evaluation.h"

namespace fallwright {

// The evaluation stays with the answer: names and units come from its book.
struct DrainBookAnswer {
    std::shared_ptr<const Evaluation> evaluation;
    drain::Runs runs;
    std::vector<drain::Trench> trenches;  // one for each of runs.runs
    std::optional<drain::FollowWish> wish;
    std::optional<drain::FollowedLine> followed;
    std::string fall_from;  // of a wish: the rule that its least fall is by; empty: as given
    const preset::CleansingRule* held_to = nullptr;  // as asked for
    std::vector<Caution> cautions;                   // about these lines
    Findings findings;                               // of the book, then of what was asked
};

Result<DrainBookAnswer> drains_of(const std::shared_ptr<const Book>& book, desk::Options& options);
// The JSON of api/schema/v1/drains.schema.json; lengths in the book's unit.
std::string drains_json(const DrainBookAnswer& answer);

}  // namespace fallwright
