// flatness: levels read over a floor, slab or pavement held against a published table (preset/flatness.h).
//
//   straightedge  a spot that lies midway between two others, within a twentieth of their distance each way,
//   is
//                 held against the straight between the two; base their distance. Humps and hollows alike
//   difference    two spots one base apart
//   change        a spot midway between two others, each one base from it: the second difference of level
//   less the
//                 first
// Every pair and every three spots that the table speaks of are looked at, in all directions. Each limit is
// that of its own base. A figure within or outside as measured is `plain`; the probability that truly all of
// them are within comes from their joint covariance (verdict/joint.h), and from it the verdict. A table from
// memory, and one that lets a share of all be outside, give no verdict: plain stands as a hint.
//
// Too many spots (over most_pairs): pairs further apart than `reach` are left out, and reach is said. The
// joint probability is that of the most_uncertain figures nearest to their limits.
//
// Metres. Source: docs/methods/flatness.md.
#pragma once

#include <array>
#include <vector>

#include "ground/surface_of_book.h"
#include "preset/flatness.h"
#include "verdict/within.h"

namespace fallwright::ground {

constexpr std::size_t most_pairs = 500000, most_uncertain = 2000;

// One figure: of two spots (difference), or of three with the middle one second.
struct FlatnessCheck {
    std::array<std::int32_t, 3> spots{-1, -1, -1};  // the third is -1 for a difference
    double base = 0;
    double value = 0;  // of a hump positive
    double limit = 0;
    double sd = 0;
};

struct Flatness {
    const preset::FlatnessPreset* preset = nullptr;
    const preset::FlatnessCriterion* criterion = nullptr;
    std::size_t checks = 0, outside = 0;  // as measured
    double longest = 0;                   // base looked at
    double reach = 0;                     // NaN: none left out for their number
    FlatnessCheck worst;                  // largest share of its limit
    bool plain_within = false;            // as measured, the share allowed outside taken off
    double probability = 0;               // NaN without a verdict
    Verdict verdict = Verdict::Untested;
};

// One for each criterion of the preset; checks is 0 where no spots lie as far apart as it asks.
std::vector<Flatness> flatness(const Book& book, const std::vector<BookSpot>& spots,
                               const preset::FlatnessPreset& preset, const Model& model);

}  // namespace fallwright::ground
