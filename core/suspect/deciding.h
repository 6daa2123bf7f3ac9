// deciding: the one more reading that would tell the explanations apart.
//
// A candidate reading z = a' x + e b + noise, e what a cause of size b does to a reading taken now. Under an
// explanation k: mean m_k = a' x - (z_a . z_k) b_k + e_k b_k, variance noise^2 + |z_a|^2 + (e_k - z_a .
// z_k)^2 s_k^2, b_k and s_k what the readings say of its size (z: parts, evidence.h). Chosen is the candidate
// with the most mutual information between explanation and reading for its effort: entropy of the mixture
// less that of its members, summed on a fixed grid.
//
// Candidates: every known point from the set-up that still stands (effort 1); where none of those decides,
// the difference of two points from a new set-up (effort 5). Decides: the most probable explanation and
// another differ by at least two standard deviations; where two or more of them are real, another real one.
// Where no reading does that, one that at least shows once more that something is wrong: `confirms_only`.
//
// Inside suspect only.
#pragma once

#include <memory>
#include <vector>

#include "suspect/ranking.h"
#include "suspect/suspect.h"

namespace fallwright {

// One explanation to be told from the others. cause: null for "nothing wrong".
struct Explanation {
    const Weighed* weighed = nullptr;
    double weight = 0;  // normalised
    bool real = true;   // else so improbable that nobody needs it told apart from the others
};

// Null where nothing decides.
std::unique_ptr<Deciding> deciding_reading(const Evidence& evidence, const Causes& causes,
                                           const std::vector<Explanation>& explanations);

// What a reading of that point, from the set-up that stands, would be under each explanation; null where it
// cannot be foreseen or tells none of them apart.
std::unique_ptr<Deciding> reading_of(const Evidence& evidence, const Causes& causes,
                                     const std::vector<Explanation>& explanations, std::int32_t point);

// What to expect of the point first read on the set-up that stands, read again; null where it was read last,
// or cannot be told.
std::unique_ptr<BeforeLifting> before_lifting(const Causes& causes);

}  // namespace fallwright
