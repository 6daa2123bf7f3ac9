#include "model/checked.h"

#include <algorithm>

namespace fallwright {

namespace {

class Graph {
  public:
    explicit Graph(std::size_t nodes) : start_(nodes + 1, 0), order_(nodes, 0), low_(nodes, 0) {}

    void add(std::uint32_t a, std::uint32_t b) {
        if (a != b) edges_.push_back({a, b});
    }

    // Nodes that two ways without a common edge join to `root`.
    std::vector<bool> joined_twice(std::uint32_t root) {
        index_edges();
        std::vector<bool> joined(order_.size(), false);
        joined[root] = true;
        search(root);
        // A node hangs with its parent's part unless the edge between them is a bridge.
        for (const std::uint32_t node : reached_) {
            if (node != root) joined[node] = low_[node] <= order_[parent_[node]] && joined[parent_[node]];
        }
        return joined;
    }

  private:
    struct Edge {
        std::uint32_t a, b;
    };
    struct Step {
        std::uint32_t node, edge, next;
    };

    void index_edges() {
        for (const Edge& edge : edges_) {
            ++start_[edge.a + 1];
            ++start_[edge.b + 1];
        }
        for (std::size_t i = 1; i < start_.size(); ++i) start_[i] += start_[i - 1];
        at_.resize(2 * edges_.size());
        std::vector<std::uint32_t> next(start_.begin(), start_.end() - 1);
        for (std::uint32_t i = 0; i < edges_.size(); ++i) {
            at_[next[edges_[i].a]++] = i;
            at_[next[edges_[i].b]++] = i;
        }
    }

    // Depth first; order_ counts from 1, low_ is the earliest node reached by one edge back.
    void search(std::uint32_t root) {
        constexpr std::uint32_t no_edge = UINT32_MAX;
        parent_.assign(order_.size(), root);
        std::uint32_t count = 0;
        std::vector<Step> path;
        const auto enter = [&](std::uint32_t node, std::uint32_t edge) {
            order_[node] = low_[node] = ++count;
            reached_.push_back(node);
            path.push_back({node, edge, start_[node]});
        };
        enter(root, no_edge);
        while (!path.empty()) {
            Step& step = path.back();
            if (step.next == start_[step.node + 1]) {
                const std::uint32_t node = step.node;
                path.pop_back();
                if (!path.empty()) low_[path.back().node] = std::min(low_[path.back().node], low_[node]);
                continue;
            }
            const std::uint32_t edge = at_[step.next++];
            if (edge == step.edge) continue;
            const std::uint32_t other = edges_[edge].a == step.node ? edges_[edge].b : edges_[edge].a;
            if (order_[other] != 0) {
                low_[step.node] = std::min(low_[step.node], order_[other]);
            } else {
                parent_[other] = step.node;
                enter(other, edge);
            }
        }
    }

    std::vector<Edge> edges_;
    std::vector<std::uint32_t> start_, at_, order_, low_, parent_, reached_;
};

}  // namespace

std::vector<bool> checked_points(const Book& book, const Points& points, const Sights& sights,
                                 const std::vector<bool>& benchmarks) {
    const auto node_of_point = [&](std::size_t point) {
        return benchmarks[point] ? 0u : static_cast<std::uint32_t>(1 + point);
    };
    const auto first_setup = static_cast<std::uint32_t>(1 + points.size());
    Graph graph(first_setup + book.setups.size());
    std::vector<std::uint32_t> seen(points.size(), UINT32_MAX);
    for (std::uint32_t setup = 0; setup < book.setups.size(); ++setup) {
        if (sights.setups[setup].matched[0] || sights.setups[setup].matched[1]) continue;
        for (std::uint32_t k = sights.row_start[setup]; k < sights.row_start[setup + 1]; ++k) {
            const auto point = static_cast<std::size_t>(sights.rows[sights.by_setup[k]].point);
            if (seen[point] == setup) continue;
            seen[point] = setup;
            graph.add(node_of_point(point), first_setup + setup);
        }
    }
    for (const Step& step : book.steps) {
        graph.add(node_of_point(static_cast<std::size_t>(points.at(step.from))),
                  node_of_point(static_cast<std::size_t>(points.at(step.to))));
    }
    const std::vector<bool> joined = graph.joined_twice(0);
    std::vector<bool> checked(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) checked[i] = joined[node_of_point(i)];
    return checked;
}

}  // namespace fallwright
