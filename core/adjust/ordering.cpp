#include "adjust/ordering.h"

#include <algorithm>

namespace fallwright::adjust {

std::size_t dense_limit(const Incidence& incidence) {
    const std::size_t columns = incidence.start.size() - 1;
    std::size_t limit = 64;
    for (;; limit *= 2) {
        std::size_t above = 0;
        for (std::size_t j = 0; j < columns; ++j)
            if (incidence.start[j + 1] - incidence.start[j] > limit) ++above;
        if (above * above * above <= 200 * columns) return limit;
    }
}

namespace {

bool same_rows(const Incidence& incidence, Column a, Column b) {
    const auto left = incidence.of(a);
    const auto right = incidence.of(b);
    return std::equal(left.begin(), left.end(), right.begin(), right.end());
}

// Leader of each column: the first column in its first row that is carried by the same rows; no_node if
// dense. Two columns with the same rows have the same first row, so only the columns that begin there are
// compared.
std::vector<Column> leaders(const Problem& problem, const Incidence& incidence, std::size_t limit) {
    std::vector<Column> leader(problem.columns());
    for (std::size_t j = 0; j < leader.size(); ++j) {
        const auto column = static_cast<Column>(j);
        const auto rows = incidence.of(column);
        leader[j] = rows.size() > limit ? no_node : column;
        if (rows.size() > limit || rows.empty()) continue;
        const auto first = static_cast<std::size_t>(rows.front());
        for (std::size_t p = problem.start[first]; p < problem.start[first + 1]; ++p) {
            const Column other = problem.column[p];
            if (other < leader[j] && leader[other] == other && same_rows(incidence, other, column))
                leader[j] = other;
        }
    }
    return leader;
}

}  // namespace

Groups group_columns(const Problem& problem, const Incidence& incidence) {
    const std::vector<Column> leader = leaders(problem, incidence, dense_limit(incidence));
    Groups groups;
    groups.of.assign(problem.columns(), no_node);
    for (std::size_t j = 0; j < leader.size(); ++j) {
        const auto column = static_cast<Column>(j);
        if (leader[j] == no_node)
            groups.dense.push_back(column);
        else if (leader[j] == column) {
            groups.of[j] = static_cast<Node>(groups.size());
            groups.start.push_back(0);
        } else
            groups.of[j] = groups.of[leader[j]];
        if (leader[j] != no_node) ++groups.start[groups.of[j] + 1];
    }
    for (std::size_t g = 0; g < groups.size(); ++g) groups.start[g + 1] += groups.start[g];
    groups.column.resize(groups.start.back());
    std::vector<std::size_t> next(groups.start.begin(), groups.start.end() - 1);
    for (std::size_t j = 0; j < leader.size(); ++j)
        if (groups.of[j] != no_node) groups.column[next[groups.of[j]]++] = static_cast<Column>(j);
    return groups;
}

Graph graph_of(const Problem& problem, const Incidence& incidence, const Groups& groups) {
    Graph graph;
    graph.start.reserve(groups.size() + 1);
    graph.weight.reserve(groups.size());
    graph.neighbour.reserve(problem.column.size());
    std::vector<Node> seen(groups.size(), no_node);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const auto self = static_cast<Node>(g);
        seen[g] = self;
        for (const RowIndex row : incidence.of(groups.members(self).front()))
            for (std::size_t p = problem.start[row]; p < problem.start[row + 1]; ++p) {
                const Node other = groups.of[problem.column[p]];
                if (other == no_node || seen[other] == self) continue;
                seen[other] = self;
                graph.neighbour.push_back(other);
            }
        graph.start.push_back(graph.neighbour.size());
        graph.weight.push_back(static_cast<std::int32_t>(groups.members(self).size()));
    }
    return graph;
}

std::vector<Column> elimination_order(const Problem& problem, const Incidence& incidence) {
    const Groups groups = group_columns(problem, incidence);
    const Peeled peeled = peel(graph_of(problem, incidence, groups));
    std::vector<Column> order;
    order.reserve(problem.columns());
    const auto append = [&](Node group) {
        for (const Column column : groups.members(group)) order.push_back(column);
    };
    for (const Node group : peeled.order) append(group);
    for (const Node place : dissect(peeled.graph)) append(peeled.core[place]);
    order.insert(order.end(), groups.dense.begin(), groups.dense.end());
    return order;
}

}  // namespace fallwright::adjust
