#include "suspect/pairs.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace fallwright {

namespace {

constexpr std::size_t leaders = 8;
constexpr std::size_t partners = 400;

bool is_one_column(const Cause& cause) {
    return cause.kind != SuspectKind::WrongPoint && cause.kind != SuspectKind::WrongSetup &&
           cause.kind != SuspectKind::InstrumentOut;
}

class PairMaker {
  public:
    PairMaker(const Evidence& evidence, const Causes& causes, Ranking& ranking)
        : evidence_(evidence), causes_(causes), ranking_(ranking), total_(ranking.total) {
        for (const Weighed& single : ranking.best) {
            if (singles_.size() == partners) break;
            if (!is_one_column(single.cause)) continue;
            Probe column = evidence.measure(causes.column(single.cause));
            if (column.found.information > 0) singles_.push_back({single, std::move(column)});
        }
    }

    void run(const std::function<double(const Cause&)>& log_prior) {
        const std::size_t first = std::min(leaders, singles_.size());
        for (std::size_t a = 0; a < first; ++a) {
            for (std::size_t b = 0; b < singles_.size(); ++b) {
                const bool again = b < first && b <= a;
                if (!again) add(singles_[a], singles_[b], log_prior);
            }
        }
        ranking_.total = total_.log();
    }

  private:
    struct Single {
        Weighed weighed;
        Probe column;
    };

    void add(const Single& a, const Single& b, const std::function<double(const Cause&)>& log_prior) {
        const double joint = joint_information(evidence_, a.column, b.column);
        Pull given;
        given.pull = b.column.found.pull - joint * a.weighed.size;
        given.information = b.column.found.information - joint * joint * a.weighed.sd * a.weighed.sd;
        if (given.information <= 0) return;
        const FoundSize found = odds_of(given, causes_.sizes(b.weighed.cause));
        Weighed pair = a.weighed;
        pair.weight += log_prior(b.weighed.cause) + found.log_odds - ranking_.none;
        if (!(pair.weight > never)) return;
        pair.order = order_of(pair.weight);
        pair.with = b.weighed.cause;
        pair.with_size = found.size;
        pair.with_sd = found.sd;
        const double per_size = joint * a.weighed.sd * a.weighed.sd;
        pair.size -= found.size * per_size;
        pair.sd = std::sqrt(a.weighed.sd * a.weighed.sd + per_size * per_size * found.sd * found.sd);
        total_.add(pair.weight);
        ranking_.best.push_back(pair);
    }

    const Evidence& evidence_;
    const Causes& causes_;
    Ranking& ranking_;
    LogSum total_;
    std::vector<Single> singles_;
};

}  // namespace

void add_pairs(const Evidence& evidence, const Causes& causes,
               const std::function<double(const Cause&)>& log_prior, Ranking& ranking) {
    PairMaker(evidence, causes, ranking).run(log_prior);
}

}  // namespace fallwright
