#include "design/vertices.h"

#include <algorithm>

#include "base/stable_order.h"

namespace fallwright {

namespace {

constexpr double least_step = 1e-7;  // metres

// A corner before its levels are known. given_*: by a chamber or a join.
struct Node {
    double ch = 0;
    const ProfilePoint* point = nullptr;
    const Chamber* chamber = nullptr;
    DesignLevel given_before, given_after;
};

DesignLevel known(const Maybe& level) {
    return {level.value, {}};
}

bool has_invert(const Chamber& chamber) {
    return chamber.in.has() || chamber.out.has();
}

std::vector<Node> merge(const LineEntry& line) {
    std::vector<Node> nodes;
    for (const ProfilePoint& point : line.profile) nodes.push_back({point.ch, &point, nullptr, {}, {}});
    for (const Chamber* chamber : usable_chambers(line)) {
        const auto same = std::find_if(nodes.begin(), nodes.end(), [&](const Node& node) {
            return std::fabs(node.ch - chamber->ch) < least_chainage;
        });
        if (same != nodes.end())
            same->chamber = chamber;
        else if (has_invert(*chamber))
            nodes.push_back({chamber->ch, nullptr, chamber, {}, {}});
    }
    std::sort(nodes.begin(), nodes.end(), [](const Node& a, const Node& b) { return a.ch < b.ch; });
    return nodes;
}

// The sides of chambers: water leaves by `out`, towards higher chainage where it runs with it.
void give_inverts(std::vector<Node>& nodes, bool with_chainage) {
    for (Node& node : nodes) {
        if (node.chamber == nullptr) continue;
        const DesignLevel in = known(node.chamber->in);
        const DesignLevel out = node.chamber->out.has() ? known(node.chamber->out) : in;
        node.given_before = with_chainage ? in : out;
        node.given_after = with_chainage ? out : in;
    }
}

// A joined end: the line itself begins at the level joined; what lies beyond keeps what a chamber says of it.
void fix_end(Node& node, bool is_first, bool with_chainage, const DesignLevel& level) {
    if (!level.has()) return;
    (is_first ? node.given_after : node.given_before) = level;
    const bool outer_is_in = is_first == with_chainage;
    const bool outer_typed =
        node.chamber != nullptr && (outer_is_in ? node.chamber->in : node.chamber->out).has();
    if (!outer_typed) (is_first ? node.given_before : node.given_after) = level;
}

DesignLevel between(const ProfileVertex& from, const Node& to, const DesignLevel& level, double ch) {
    const double share = (ch - from.ch) / (to.ch - from.ch);
    return combined(1 - share, from.after, share, level);
}

class VertexLayer {
  public:
    explicit VertexLayer(const std::vector<Node>& nodes) : nodes_(nodes) {}

    std::vector<ProfileVertex> run() {
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            const Node& node = nodes_[i];
            ProfileVertex vertex;
            vertex.ch = node.ch;
            vertex.curve = node.point == nullptr ? 0 : node.point->curve;
            vertex.typed = node.point == nullptr ? DesignLevel() : level_of_point(*node.point);
            const bool complete = node.given_before.has() && node.given_after.has();
            const DesignLevel passing = node.point == nullptr && !complete ? passing_level(i) : vertex.typed;
            vertex.before = node.given_before.has() ? node.given_before : passing;
            vertex.after = node.given_after.has() ? node.given_after : passing;
            if (!vertex.before.has()) vertex.before = vertex.after;
            if (!vertex.after.has()) vertex.after = vertex.before;
            laid_.push_back(std::move(vertex));
        }
        return std::move(laid_);
    }

  private:
    DesignLevel level_of_point(const ProfilePoint& point) const {
        if (point.level.has()) return known(point.level);
        if (point.under != no_name) return {-point.by, {{point.under, 1}}};
        if (laid_.empty()) return {};
        return raised(laid_.back().after, point.gradient.value * (point.ch - laid_.back().ch));
    }

    // The profile at a chamber as if the chamber were not there: towards the next corner that has a level.
    DesignLevel passing_level(std::size_t i) const {
        if (laid_.empty()) return {};
        const ProfileVertex& from = laid_.back();
        const double ch = nodes_[i].ch;
        for (std::size_t j = i + 1; j < nodes_.size(); ++j) {
            const Node& to = nodes_[j];
            if (to.given_before.has()) return between(from, to, to.given_before, ch);
            if (to.point == nullptr) continue;
            if (to.point->gradient.has())
                return raised(from.after, to.point->gradient.value * (ch - from.ch));
            return between(from, to, level_of_point(*to.point), ch);
        }
        return {};
    }

    const std::vector<Node>& nodes_;
    std::vector<ProfileVertex> laid_;
};

}  // namespace

bool steps(const ProfileVertex& vertex) {
    if (!vertex.before.has() && !vertex.after.has()) return false;
    return !(std::fabs(difference(vertex.after, vertex.before)) < least_step);
}

bool profile_in_order(const LineEntry& line) {
    for (std::size_t i = 1; i < line.profile.size(); ++i) {
        if (line.profile[i].ch - line.profile[i - 1].ch < least_chainage) return false;
    }
    return true;
}

std::vector<const Chamber*> usable_chambers(const LineEntry& line) {
    std::vector<const Chamber*> chambers;
    for (const Chamber& chamber : line.chambers) {
        const bool beyond = !line.profile.empty() && (chamber.ch < line.profile.front().ch - least_chainage ||
                                                      chamber.ch > line.profile.back().ch + least_chainage);
        if (!beyond) chambers.push_back(&chamber);
    }
    sort_stably(chambers, [](const Chamber* a, const Chamber* b) { return a->ch < b->ch; });
    const auto same = [](const Chamber* a, const Chamber* b) { return b->ch - a->ch < least_chainage; };
    chambers.erase(std::unique(chambers.begin(), chambers.end(), same), chambers.end());
    return chambers;
}

std::vector<ProfileVertex> lay_vertices(const LineEntry& line, bool with_chainage, const FixedEnds& fixed) {
    if (!profile_in_order(line)) return {};
    std::vector<Node> nodes = merge(line);
    give_inverts(nodes, with_chainage);
    if (nodes.size() > 1) {
        fix_end(nodes.front(), true, with_chainage, fixed[0]);
        fix_end(nodes.back(), false, with_chainage, fixed[1]);
    }
    return VertexLayer(nodes).run();
}

}  // namespace fallwright
