// suspect: what probably went wrong in a book, and the reading that would decide it.
//
// Every cause (causes.h) is weighed by its prior (kind.h) and by the readings (odds.h, ranking.h). Causes
// that no reading of the book tells apart (|likeness| > 0.99) are one entry, their probabilities added: the
// most probable one leads, the others are `alike`. "Nothing wrong" and all causes add up to 1. Nothing is
// ever removed by itself.
//
// A list ends when it holds 95 % of what is not "nothing wrong"; entries under 0.01 are left out. People see
// those from 0.1 (likely from 0.4, very likely from 0.8).
//
// Domain: one blunder, or two where one leaves too much; more at once are not told apart. Metres; sizes as
// booked - true.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/finding.h"
#include "design/design.h"
#include "model/model.h"
#include "suspect/kind.h"

namespace fallwright {

// Who a cause is about, in the words of the book.
struct Accused {
    SuspectKind kind = SuspectKind::Misread;
    std::vector<std::string> about;
};

// What one explanation expects the deciding reading to be.
struct Expected {
    bool nothing_wrong = false;
    Accused who;
    double staff = 0, sd = 0;
};

// A reading to take now: of a point, on the set-up that still stands; or, from a new set-up, of `from` and of
// `point`, staff then being the second less the first. effort 1, or 5 for a new set-up.
struct Deciding {
    std::int32_t setup = -1;
    std::int32_t point = -1, from = -1;
    int effort = 1;
    double worth = 0;            // expected gain of information, nats
    bool confirms_only = false;  // shows that something is wrong, not which of the real explanations
    std::vector<Expected> predicts;
};

struct Suspect {
    Accused who;
    double size = 0, size_sd = 0;  // size NaN where only another name explains it
    bool size_is_length = true;    // else a gradient, a factor or a rate
    double probability = 0;
    std::vector<Accused> alike;
    std::vector<Accused> with;  // a second blunder beside it, none or one
    double with_size = 0, with_sd = 0;
    double before = 0, after = 0;  // global test before and after, and its limit after
    double limit = 0;
    std::string what;                     // what happened, with its size
    std::string why;                      // the same with the evidence
    std::unique_ptr<Deciding> settle_by;  // null: nothing decides any more
    std::string redo;                     // then, or where it only confirms: what to do to be safe
};

// What a blunder would have to be, to show.
struct Unseen {
    Accused who;
    double detectable = 0;  // metres, ratio ...; NaN: would never show
    bool is_length = true;
};

// Before the tripod is lifted: read that point again, expect this; a difference beyond the limit means
// something moved.
struct BeforeLifting {
    std::int32_t setup = -1, point = -1;
    double staff = 0, sd = 0, limit = 0;
};

struct Suspects {
    std::vector<Suspect> list;
    double none = 1;
    std::vector<Unseen> unseen;
    std::int32_t lone_sights = 0;  // readings that nothing checks
    std::unique_ptr<BeforeLifting> before_lifting;
    Findings findings;
};

// All stages' outputs belong to the book. Total over every book: one without a checked reading gives the
// priors.
Suspects find_suspects(const Book& book, const Where& where, const Figures& figures, const Designs& designs,
                       const Model& model);

// Whether the size of such a cause is a length (else a gradient, an angle or a factor).
bool size_is_length(SuspectKind kind);

// 0.8 "very likely", 0.4 "likely", 0.1 "possible"; empty below.
std::string_view likely_word(double probability);

}  // namespace fallwright
