// Nested dissection of long, thin cores, in front of minimum degree.
//
// Minimum degree takes a ladder of ties from one end to the other, and its elimination tree is as high as the
// ladder is long. A few nodes cut out in the middle leave two halves that know nothing of each other: the
// tree stays low, and so the cost of a variance asked for later. Cuts are levels of a breadth-first search
// from a far end (George, Liu 1981, chapter 8). A core that only falls apart along wide cuts is left to
// minimum degree.
#include <algorithm>

#include "adjust/ordering.h"

namespace fallwright::adjust {
namespace {

// A cut is worth it when it takes few nodes, and either side holds so many times more.
constexpr std::size_t widest_cut = 8;
constexpr std::size_t cut_share = 8;

class Dissection {
  public:
    explicit Dissection(const Graph& graph);
    std::vector<Node> run();

  private:
    void search(Node from);
    void take_apart(const std::vector<Node>& part);
    bool cut();
    Graph uncut(std::vector<Node>& nodes) const;

    const Graph& graph_;
    std::vector<bool> removed_;
    std::vector<std::int32_t> visited_;  // number of the last search that met the node
    std::int32_t searches_ = 0;
    std::vector<Node> met_;           // by the last search, level by level
    std::vector<std::size_t> level_;  // begin of each level in met_, and the end
    std::vector<Node> removals_;      // outermost cut first
    std::vector<std::vector<Node>> parts_;
};

Dissection::Dissection(const Graph& graph)
    : graph_(graph), removed_(graph.size(), false), visited_(graph.size(), 0) {}

void Dissection::search(Node from) {
    ++searches_;
    met_.assign(1, from);
    level_.assign(1, 0);
    visited_[from] = searches_;
    while (level_.back() < met_.size()) {
        const std::size_t begin = level_.back();
        const std::size_t end = met_.size();
        level_.push_back(end);
        for (std::size_t k = begin; k < end; ++k)
            for (std::size_t p = graph_.start[met_[k]]; p < graph_.start[met_[k] + 1]; ++p) {
                const Node other = graph_.neighbour[p];
                if (removed_[other] || visited_[other] == searches_) continue;
                visited_[other] = searches_;
                met_.push_back(other);
            }
    }
}

// Cuts what the last search met at its narrowest level in the middle half; false if that is too wide.
bool Dissection::cut() {
    std::size_t best = 0, narrowest = met_.size();
    for (std::size_t l = 1; l + 2 < level_.size(); ++l) {
        const std::size_t width = level_[l + 1] - level_[l];
        const std::size_t least = std::min(level_[l], met_.size() - level_[l + 1]);
        if (4 * least < met_.size() - width || width >= narrowest) continue;
        best = l;
        narrowest = width;
    }
    if (best == 0 || narrowest > widest_cut || 2 * cut_share * narrowest > met_.size()) return false;
    for (std::size_t k = level_[best]; k < level_[best + 1]; ++k) {
        removed_[met_[k]] = true;
        removals_.push_back(met_[k]);
    }
    return true;
}

// Each connected piece of a part: searched twice, so that the second search starts at a far end, and cut.
void Dissection::take_apart(const std::vector<Node>& part) {
    const std::int32_t before = searches_;
    for (const Node node : part) {
        if (removed_[node] || visited_[node] > before) continue;
        search(node);
        if (met_.size() < 2 * cut_share) continue;
        search(met_.back());
        if (cut()) parts_.push_back(met_);
    }
}

// The graph without the cuts; `nodes` becomes its nodes.
Graph Dissection::uncut(std::vector<Node>& nodes) const {
    std::vector<Node> place(graph_.size(), no_node);
    for (std::size_t v = 0; v < graph_.size(); ++v) {
        if (removed_[v]) continue;
        place[v] = static_cast<Node>(nodes.size());
        nodes.push_back(static_cast<Node>(v));
    }
    Graph rest;
    for (const Node node : nodes) {
        for (std::size_t p = graph_.start[node]; p < graph_.start[node + 1]; ++p)
            if (!removed_[graph_.neighbour[p]]) rest.neighbour.push_back(place[graph_.neighbour[p]]);
        rest.start.push_back(rest.neighbour.size());
        rest.weight.push_back(graph_.weight[node]);
    }
    return rest;
}

std::vector<Node> Dissection::run() {
    std::vector<Node> all(graph_.size());
    for (std::size_t v = 0; v < all.size(); ++v) all[v] = static_cast<Node>(v);
    parts_.push_back(std::move(all));
    while (!parts_.empty()) {
        const std::vector<Node> part = std::move(parts_.back());
        parts_.pop_back();
        take_apart(part);
    }
    std::vector<Node> nodes, order;
    const Graph rest = uncut(nodes);
    for (const Node place : minimum_degree(rest)) order.push_back(nodes[place]);
    order.insert(order.end(), removals_.rbegin(), removals_.rend());
    return order;
}

}  // namespace

std::vector<Node> dissect(const Graph& graph) {
    return Dissection(graph).run();
}

}  // namespace fallwright::adjust
