// The elimination tree: the parent of a position is the next one whose elimination it touches. In postorder
// the descendants of a position stand right before it, so every subtree is a range.
#pragma once

#include <vector>

#include "adjust/ordering.h"
#include "adjust/rows.h"

namespace fallwright::adjust {

struct Tree {
    std::vector<Column> order;  // position -> column, postordered
    std::vector<Node> parent;   // per position; no_node at a root
    std::vector<Column> first;  // per position: lowest position of its subtree
};

// `order` is any elimination order; the result eliminates the same pairs in a postorder of its tree.
Tree tree_of(const Problem& problem, const Incidence& incidence, const std::vector<Column>& order);

}  // namespace fallwright::adjust
