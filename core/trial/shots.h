// shots: the shots of a check that can be used, with the stations, pegs and levelling-ups they belong to.
//
// Inside trial only.
#pragma once

#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "effect/curvature.h"
#include "effect/effect.h"

namespace fallwright {

struct UsableShot {
    std::size_t shot = 0;  // index in Trial::shots
    SightTerms terms;      // u, v, d, r, sign
    double y = 0;          // s r less what the curvature adds
    double sd = 0;
    // Counted from 0.
    std::size_t station = 0, peg = 0;
    std::size_t levelling_up = 0;  // shares a setting tilt
    std::size_t height = 0;        // shares c, if the tripod stays where the body is turned
    bool faced = false;            // facing is given
};

struct UsableShots {
    std::vector<UsableShot> shots;
    std::size_t stations = 0, pegs = 0, levelling_ups = 0, heights = 0;
    bool any_faced = false, all_faced = false;
    bool turned_by_name = false;  // turns are named where facings are given
    Findings findings;
};

UsableShots usable_shots(const Book& book, const Trial& trial, const InstrumentErrors& errors,
                         const Curvature& curvature);

}  // namespace fallwright
