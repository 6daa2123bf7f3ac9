// groups: causes that no reading of the book tells apart, as one.
//
// From the most probable down, each takes those with |likeness| > 0.99 to it.
//
// Inside suspect only.
#pragma once

#include <vector>

#include "suspect/ranking.h"

namespace fallwright {

struct Group {
    std::vector<std::size_t> members;  // in Ranking::best, the leader first
    double probability = 0;
};

// Of the causes that may matter, the most probable group first.
std::vector<Group> group_alike(const Evidence& evidence, const Causes& causes, const Ranking& ranking);

}  // namespace fallwright
