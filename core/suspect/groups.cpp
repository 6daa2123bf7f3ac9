#include "suspect/groups.h"

#include <cmath>

#include "base/print.h"
#include "base/stable_order.h"

namespace fallwright {

namespace {

constexpr double alike = 0.99;
constexpr double may_matter = 1e-5;  // probability
constexpr std::size_t most = 600;

class Grouper {
  public:
    Grouper(const Evidence& evidence, const Causes& causes, const Ranking& ranking)
        : evidence_(evidence), ranking_(ranking) {
        for (std::size_t i = 0; i < ranking.best.size() && i < most; ++i) {
            const Weighed& each = ranking.best[i];
            if (ranking.probability(each.weight) < may_matter) break;
            columns_.push_back({evidence.measure(causes.column(each.cause, each.which)), {}});
            if (each.with) columns_.back().second = evidence.measure(causes.column(*each.with));
        }
        taken_.assign(columns_.size(), false);
    }

    std::vector<Group> run() {
        std::vector<Group> groups;
        for (std::size_t leader = 0; leader < columns_.size(); ++leader) {
            if (!taken_[leader]) groups.push_back(gather(leader));
        }
        sort_stably(groups, [](const Group& a, const Group& b) {
            return rounded_to(a.probability, 9) > rounded_to(b.probability, 9);
        });
        return groups;
    }

  private:
    struct Columns {
        Probe first, second;
    };

    Group gather(std::size_t leader) {
        Group group;
        for (std::size_t i = leader; i < columns_.size(); ++i) {
            if (taken_[i] || (i != leader && !are_alike(leader, i))) continue;
            taken_[i] = true;
            group.members.push_back(i);
            group.probability += ranking_.probability(ranking_.best[i].weight);
        }
        return group;
    }

    bool same(const Probe& a, const Probe& b) const { return std::fabs(likeness(evidence_, a, b)) > alike; }

    bool are_alike(std::size_t a, std::size_t b) const {
        const bool pair = ranking_.best[a].with.has_value();
        if (pair != ranking_.best[b].with.has_value()) return false;
        const Columns &left = columns_[a], &right = columns_[b];
        if (!pair) return same(left.first, right.first);
        return (same(left.first, right.first) && same(left.second, right.second)) ||
               (same(left.first, right.second) && same(left.second, right.first));
    }

    const Evidence& evidence_;
    const Ranking& ranking_;
    std::vector<Columns> columns_;
    std::vector<bool> taken_;
};

}  // namespace

std::vector<Group> group_alike(const Evidence& evidence, const Causes& causes, const Ranking& ranking) {
    return Grouper(evidence, causes, ranking).run();
}

}  // namespace fallwright
