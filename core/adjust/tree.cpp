// Elimination tree of a normal matrix straight from the rows, in time almost linear in the terms, by paths
// shortened as they are walked (Liu 1990; for rows instead of the matrix: Davis 2006, section 4.1).
#include "adjust/tree.h"

#include <cstddef>

namespace fallwright::adjust {
namespace {

std::vector<Node> parents(const Problem& problem, const Incidence& incidence,
                          const std::vector<Column>& order) {
    std::vector<Node> parent(order.size(), no_node);
    std::vector<Node> ancestor(order.size(), no_node);
    std::vector<Node> last(problem.rows(), no_node);  // last position seen in each row
    for (std::size_t k = 0; k < order.size(); ++k) {
        const auto self = static_cast<Node>(k);
        for (const RowIndex row : incidence.of(order[k])) {
            Node walk = last[row];
            while (walk != no_node && walk < self) {
                const Node above = ancestor[walk];
                ancestor[walk] = self;
                if (above == no_node) parent[walk] = self;
                walk = above;
            }
            last[row] = self;
        }
    }
    return parent;
}

// Postorder number of each position; children in their old order.
std::vector<Node> postorder(const std::vector<Node>& parent) {
    const std::size_t count = parent.size();
    std::vector<Node> child(count, no_node), sibling(count, no_node), number(count);
    for (std::size_t k = count; k-- > 0;) {
        if (parent[k] == no_node) continue;
        sibling[k] = child[parent[k]];
        child[parent[k]] = static_cast<Node>(k);
    }
    Node next = 0;
    std::vector<Node> path;
    for (std::size_t k = 0; k < count; ++k) {
        if (parent[k] != no_node) continue;
        path.push_back(static_cast<Node>(k));
        while (!path.empty()) {
            const Node top = path.back();
            const Node below = child[top];
            if (below != no_node) {
                child[top] = sibling[below];
                path.push_back(below);
            } else {
                number[top] = next++;
                path.pop_back();
            }
        }
    }
    return number;
}

}  // namespace

Tree tree_of(const Problem& problem, const Incidence& incidence, const std::vector<Column>& order) {
    const std::vector<Node> parent = parents(problem, incidence, order);
    const std::vector<Node> number = postorder(parent);
    Tree tree;
    tree.order.resize(order.size());
    tree.parent.resize(order.size());
    tree.first.resize(order.size());
    for (std::size_t k = 0; k < order.size(); ++k) {
        tree.order[number[k]] = order[k];
        tree.parent[number[k]] = parent[k] == no_node ? no_node : number[parent[k]];
        tree.first[k] = static_cast<Column>(k);
    }
    for (std::size_t k = 0; k < order.size(); ++k) {
        const Node above = tree.parent[k];
        if (above != no_node && tree.first[k] < tree.first[above]) tree.first[above] = tree.first[k];
    }
    return tree;
}

}  // namespace fallwright::adjust
