// The only file that sees Eigen: its approximate minimum degree ordering (Amestoy, Davis, Duff 1996).
#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>

#include "adjust/ordering.h"

namespace fallwright::adjust {
namespace {

using Pattern = Eigen::SparseMatrix<double>;

// Both halves and the diagonal, ascending, as the ordering wants them; the values do not matter.
Pattern pattern_of(const Graph& graph) {
    const auto count = static_cast<Eigen::Index>(graph.size());
    Pattern pattern(count, count);
    pattern.reserve(static_cast<Eigen::Index>(graph.neighbour.size() + graph.size()));
    std::vector<Node> column;
    for (std::size_t v = 0; v < graph.size(); ++v) {
        const auto* const list = graph.neighbour.data();
        column.assign(list + graph.start[v], list + graph.start[v + 1]);
        column.push_back(static_cast<Node>(v));
        std::sort(column.begin(), column.end());
        pattern.startVec(static_cast<Eigen::Index>(v));
        for (const Node other : column)
            pattern.insertBackByOuterInner(static_cast<Eigen::Index>(v), other) = 1.0;
    }
    pattern.finalize();
    return pattern;
}

}  // namespace

std::vector<Node> minimum_degree(const Graph& graph) {
    std::vector<Node> order(graph.size());
    if (order.empty()) return order;
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> permutation;
    Eigen::AMDOrdering<int>()(pattern_of(graph), permutation);
    for (std::size_t k = 0; k < order.size(); ++k)
        order[k] = permutation.indices()[static_cast<Eigen::Index>(k)];
    return order;
}

}  // namespace fallwright::adjust
