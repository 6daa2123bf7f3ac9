// The order in which unknowns are eliminated: the steps, each testable on its own.
//
//   1. Columns carried by the very same rows (height and tilts of one set-up) form one group and stay
//   together.
//   2. Dense columns (errors an instrument shares) come last. They are left out of what follows.
//   3. Peeling: groups with at most two neighbours, round after round. In one round no two neighbours go, so
//   a
//      line of levels is halved by each round and the elimination tree stays as low as the logarithm of its
//      length: variances of far apart points stay cheap. Linear in time and memory.
//   4. What is left, the core: cut in the middle where it is long and thin, then approximate minimum degree.
//
// Everything counts in column numbers and rows as given, so the same problem gives the same order everywhere.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "adjust/rows.h"

namespace fallwright::adjust {

using Node = std::int32_t;
constexpr Node no_node = -1;

// A column is dense when more rows than this carry it. At least 64, and doubled until so few are left that
// their own full block costs next to nothing: count^3 <= 200 columns.
std::size_t dense_limit(const Incidence& incidence);

struct Groups {
    std::vector<Node> of;  // per column; no_node for a dense one
    std::vector<std::size_t> start{0};
    std::vector<Column> column;  // members, ascending
    std::vector<Column> dense;   // ascending

    std::size_t size() const { return start.size() - 1; }
    std::span<const Column> members(Node group) const {
        return {column.data() + start[group], start[group + 1] - start[group]};
    }
};

Groups group_columns(const Problem& problem, const Incidence& incidence);

// Neighbours of each group, itself left out, each once.
struct Graph {
    std::vector<std::size_t> start{0};
    std::vector<Node> neighbour;
    std::vector<std::int32_t> weight;  // columns in the group

    std::size_t size() const { return weight.size(); }
};

Graph graph_of(const Problem& problem, const Incidence& incidence, const Groups& groups);

struct Peeled {
    std::vector<Node> order;  // groups in order of elimination
    std::vector<Node> core;   // groups left over, ascending
    Graph graph;              // neighbours within the core, numbered by place in `core`
};

Peeled peel(Graph graph);

// The nodes of a graph in order of elimination: by approximate minimum degree, and the same after cuts.
std::vector<Node> minimum_degree(const Graph& graph);
std::vector<Node> dissect(const Graph& graph);

// All of the above: position -> column.
std::vector<Column> elimination_order(const Problem& problem, const Incidence& incidence);

}  // namespace fallwright::adjust
