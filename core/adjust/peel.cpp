// Peeling of groups with at most two neighbours, in rounds, in linear time, as long as the rounds are
// worthwhile.
//
// Nothing is rewritten when a group goes: it only remembers the two neighbours it had, its ends, which are
// neighbours of each other from then on. A list of neighbours is brought up to date when its owner may have
// become ripe: an entry that is gone is followed over its ends to the living neighbour it stands for. The
// true number of neighbours falls by at most one for each neighbour gone, so a list whose length at its last
// update less the number gone since exceeds two need not be looked at; an update costs no more than what has
// gone.
#include <array>
#include <utility>

#include "adjust/ordering.h"

namespace fallwright::adjust {
namespace {

constexpr std::int32_t ripe_neighbours = 2;
// Groups whose neighbours hold fewer columns go first in a round; from this many columns on all are alike.
constexpr std::int32_t weight_classes = 16;
// A round in which a smaller share than one in this many goes is the last: a ladder of ties would be taken
// from its ends, one rung a round, and its tree would be as high as it is long.
constexpr std::size_t round_share = 64;

class Peeling {
  public:
    explicit Peeling(Graph graph);
    Peeled run();

  private:
    void round();
    void sort_ripe();
    void eliminate(Node node);
    void update(Node node);
    Node follow(Node self, Node entry) const;
    std::int32_t neighbour_weight(Node node) const;
    void collect_core(Peeled& result);

    Graph graph_;
    std::vector<std::int32_t> length_;  // of the list at its last update
    std::vector<std::int32_t> gone_;    // neighbours gone since
    std::vector<std::array<Node, 2>> ends_;
    std::vector<bool> alive_;
    std::vector<std::int32_t> touched_;  // last round in which a neighbour went
    std::vector<Node> seen_;
    std::vector<Node> candidates_, next_;
    std::array<std::vector<Node>, weight_classes> ripe_;
    std::vector<Node> order_;
    std::int32_t round_ = 0;
};

Peeling::Peeling(Graph graph) : graph_(std::move(graph)) {
    const std::size_t count = graph_.size();
    length_.resize(count);
    for (std::size_t v = 0; v < count; ++v)
        length_[v] = static_cast<std::int32_t>(graph_.start[v + 1] - graph_.start[v]);
    gone_.assign(count, 0);
    ends_.assign(count, {no_node, no_node});
    alive_.assign(count, true);
    touched_.assign(count, 0);
    seen_.assign(count, no_node);
    candidates_.resize(count);
    for (std::size_t v = 0; v < count; ++v) candidates_[v] = static_cast<Node>(v);
    order_.reserve(count);
}

Node Peeling::follow(Node self, Node entry) const {
    while (entry != no_node && !alive_[entry]) {
        const auto& ends = ends_[entry];
        entry = ends[0] == self ? ends[1] : ends[0];
    }
    return entry;
}

void Peeling::update(Node node) {
    Node* const list = graph_.neighbour.data() + graph_.start[node];
    std::int32_t kept = 0;
    for (std::int32_t p = 0; p < length_[node]; ++p) {
        const Node living = follow(node, list[p]);
        if (living == no_node || living == node || seen_[living] == node) continue;
        seen_[living] = node;
        list[kept++] = living;
    }
    for (std::int32_t p = 0; p < kept; ++p) seen_[list[p]] = no_node;
    length_[node] = kept;
    gone_[node] = 0;
}

std::int32_t Peeling::neighbour_weight(Node node) const {
    std::int32_t sum = 0;
    for (std::int32_t p = 0; p < length_[node]; ++p)
        sum += graph_.weight[graph_.neighbour[graph_.start[node] + p]];
    return sum < weight_classes ? sum : weight_classes - 1;
}

void Peeling::sort_ripe() {
    for (auto& members : ripe_) members.clear();
    for (const Node node : candidates_) {
        if (!alive_[node] || length_[node] - gone_[node] > ripe_neighbours) continue;
        if (gone_[node] > 0) update(node);
        if (length_[node] <= ripe_neighbours) ripe_[neighbour_weight(node)].push_back(node);
    }
}

void Peeling::eliminate(Node node) {
    alive_[node] = false;
    order_.push_back(node);
    for (std::int32_t p = 0; p < length_[node]; ++p) {
        const Node end = graph_.neighbour[graph_.start[node] + p];
        ends_[node][p] = end;
        ++gone_[end];
        if (touched_[end] == round_) continue;
        touched_[end] = round_;
        next_.push_back(end);
    }
}

void Peeling::round() {
    ++round_;
    next_.clear();
    sort_ripe();
    for (const auto& members : ripe_)
        for (const Node node : members)
            if (touched_[node] != round_) eliminate(node);
    candidates_.swap(next_);
}

void Peeling::collect_core(Peeled& result) {
    std::vector<Node> place(graph_.size(), no_node);
    for (std::size_t v = 0; v < graph_.size(); ++v) {
        if (!alive_[v]) continue;
        place[v] = static_cast<Node>(result.core.size());
        result.core.push_back(static_cast<Node>(v));
    }
    for (const Node node : result.core) {
        update(node);
        for (std::int32_t p = 0; p < length_[node]; ++p)
            result.graph.neighbour.push_back(place[graph_.neighbour[graph_.start[node] + p]]);
        result.graph.start.push_back(result.graph.neighbour.size());
        result.graph.weight.push_back(graph_.weight[node]);
    }
}

Peeled Peeling::run() {
    std::size_t living = graph_.size();
    bool worthwhile = true;
    while (worthwhile && !candidates_.empty()) {
        round();
        const std::size_t went = living + order_.size() - graph_.size();
        living -= went;
        worthwhile = went * round_share >= living;
    }
    Peeled result;
    collect_core(result);
    result.order = std::move(order_);
    return result;
}

}  // namespace

Peeled peel(Graph graph) {
    return Peeling(std::move(graph)).run();
}

}  // namespace fallwright::adjust
