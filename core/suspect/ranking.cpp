#include "suspect/ranking.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "adjust/statistics.h"
#include "base/print.h"
#include "base/stable_order.h"
#include "suspect/pairs.h"
#include "suspect/reassign.h"
#include "suspect/tripod_pulls.h"

namespace fallwright {

namespace {

constexpr std::size_t kept = 512;
constexpr double does_not_matter = 9;  // ln of the weight of "nothing wrong" over its own

bool heavier(const Weighed& a, const Weighed& b) {
    return a.order > b.order;
}

class Ranker {
  public:
    Ranker(const Evidence& evidence, const Causes& causes, const SuspectPriors& priors)
        : evidence_(evidence), causes_(causes), priors_(priors), tripods_(evidence, causes) {
        causes.each(
            [this](const Cause& cause) { units_[static_cast<std::size_t>(cause.kind)] += cause.share; });
        for (std::size_t kind = 0; kind < suspect_kinds; ++kind)
            log_unit_[kind] = std::log(priors.weight[kind] / units_[kind]);
    }

    Ranking run() {
        ranking_.none = std::log(priors_.none);
        LogSum total(ranking_.none);
        causes_.each([&](const Cause& cause) { weigh(cause, total); });
        if (flat_ > 0) total.add(std::log(flat_));
        ranking_.total = total.log();
        sort_stably(ranking_.best, heavier);
        return std::move(ranking_);
    }

    double log_prior(const Cause& cause) const {
        const auto kind = static_cast<std::size_t>(cause.kind);
        return log_unit_[kind] + (cause.share == 1 ? 0 : std::log(cause.share));
    }

  private:
    // A reading that nothing checks leaves its causes as they are believed beforehand: no logarithm for each.
    bool is_flat(const Cause& cause) const {
        if (cause.kind > SuspectKind::StaffInverted && cause.kind != SuspectKind::OtherBeam) return false;
        return cause.count == 1 && !evidence_.checked(static_cast<std::uint32_t>(cause.row));
    }

    void weigh_flat(const Cause& cause) {
        const auto kind = static_cast<std::size_t>(cause.kind);
        double shares = 0;
        if (cause.kind == SuspectKind::DigitsSwapped) {
            for (const Size& each : causes_.sizes(cause)) shares += each.share;
        } else {
            shares = 1;
        }
        const double weight = priors_.weight[kind] * cause.share / units_[kind] * shares;
        flat_ += weight;
        if (weight < flat_floor_) return;
        keep(cause, 0, odds_of({}, causes_.sizes(cause)), std::log(weight));
    }

    void weigh(const Cause& cause, LogSum& total) {
        if (is_flat(cause)) return weigh_flat(cause);
        std::size_t which = 0;
        const FoundSize found = found_of(cause, which);
        const double weight = log_prior(cause) + found.log_odds;
        if (!(weight > never)) return;
        total.add(weight);
        if (weight >= floor_) keep(cause, which, found, weight);
    }

    void keep(const Cause& cause, std::size_t which, const FoundSize& found, double weight) {
        Weighed weighed;
        weighed.cause = cause;
        weighed.which = which;
        weighed.weight = weight;
        weighed.order = order_of(weight);
        weighed.size = found.size;
        weighed.sd = found.sd;
        ranking_.best.push_back(weighed);
        if (ranking_.best.size() >= 2 * kept) drop_half();
    }

    // The heaviest stay, of equals the first ones, in the order they came.
    void drop_half() {
        std::vector<double> orders;
        for (const Weighed& each : ranking_.best) orders.push_back(each.order);
        std::nth_element(orders.begin(), orders.begin() + kept - 1, orders.end(), std::greater<>());
        const double last = orders[kept - 1];
        auto equals =
            kept - static_cast<std::size_t>(std::count_if(orders.begin(), orders.end(),
                                                          [last](double order) { return order > last; }));
        std::size_t stay = 0;
        for (Weighed& each : ranking_.best) {
            if (each.order < last || (each.order == last && equals == 0)) continue;
            if (each.order == last) {
                --equals;
                floor_ = each.weight;
            }
            ranking_.best[stay++] = each;
        }
        ranking_.best.resize(stay);
        flat_floor_ = std::exp(floor_);
    }

    FoundSize found_of(const Cause& cause, std::size_t& which) {
        if (cause.kind == SuspectKind::WrongPoint || cause.kind == SuspectKind::WrongSetup)
            return odds_reassigned(evidence_, causes_, cause,
                                   ranking_.none - does_not_matter - log_prior(cause));
        if (cause.kind != SuspectKind::InstrumentOut) {
            const Pull pull = pull_of(cause);
            note_least(cause, pull.information);
            return odds_of(pull, causes_.sizes(cause));
        }
        return joint(cause, which);
    }

    void note_least(const Cause& cause, double information) {
        LeastSeen& least = ranking_.least[static_cast<std::size_t>(cause.kind)];
        if (cause.kind == SuspectKind::Misread && information == 0) return;
        if (least.any && information >= least.information) return;
        least = {true, cause, information};
    }

    Pull pull_of(const Cause& cause) {
        switch (cause.kind) {
            case SuspectKind::Knocked:
                return tripods_.from(cause.row);
            case SuspectKind::OtherBeam:
                return tripods_.run(cause.row, cause.count);
            case SuspectKind::Misread:
            case SuspectKind::DigitsSwapped:
            case SuspectKind::OffsetReversed:
            case SuspectKind::OffsetOmitted:
            case SuspectKind::StaffInverted: {
                Pull one = evidence_.one(static_cast<std::uint32_t>(cause.row));
                one.pull *= causes_.sight(cause.row).terms.sign;
                return one;
            }
            default:
                return of_many(cause);
        }
    }

    Pull of_many(const Cause& cause) {
        const Shifts shifts = causes_.column(cause);
        const std::int32_t row = causes_.row_of_tripod(cause, shifts);
        return row >= 0 ? tripods_.of(row, shifts) : evidence_.measure(shifts).found;
    }

    FoundSize joint(const Cause& cause, std::size_t& which) {
        const std::vector<Causes::InstrumentColumn> all = causes_.instrument_columns(cause);
        const std::size_t count = all.size();
        std::vector<double> pull, information(count * count), sd;
        std::vector<std::vector<adjust::Part>> parts;
        const auto column = [&](std::size_t i) {
            return [this, &cause, kind = all[i]](std::uint32_t row) {
                return causes_.instrument_coefficient(cause, kind, row);
            };
        };
        for (std::size_t i = 0; i < count; ++i) {
            Probe probe = evidence_.measure_readings(column(i));
            pull.push_back(probe.found.pull);
            sd.push_back(all[i].sd);
            parts.push_back(std::move(probe.parts));
            information[i * count + i] = probe.found.information;
            for (std::size_t j = 0; j < i; ++j) {
                const bool seen = !parts[i].empty() && !parts[j].empty();
                information[i * count + j] = information[j * count + i] =
                    seen ? evidence_.readings_together(column(i), column(j)) - product(parts[i], parts[j])
                         : 0;
            }
        }
        const JointOdds odds = odds_joint(pull, information, sd);
        which = odds.which;
        return odds.found;
    }

    const Evidence& evidence_;
    const Causes& causes_;
    const SuspectPriors& priors_;
    TripodPulls tripods_;
    std::array<double, suspect_kinds> units_{};     // by kind: the sum of all shares
    std::array<double, suspect_kinds> log_unit_{};  // ln of the prior of a share of 1
    Ranking ranking_;
    double floor_ = never, flat_floor_ = 0;  // ln, and as it is
    double flat_ = 0;                        // weights of causes the readings say nothing of
};

// What the best single cause leaves of the global test, against what chance leaves.
bool leaves_much(const Causes& causes, const Evidence& evidence, const Ranking& ranking) {
    const Summary& summary = causes.model().summary;
    if (summary.dof < 2 || summary.ok || ranking.best.empty()) return false;
    const Weighed& best = ranking.best.front();
    const Pull found = evidence.measure(causes.column(best.cause, best.which)).found;
    const double explained = found.information > 0 ? found.pull * found.pull / found.information : 0;
    return summary.chi2 - explained >
           adjust::chi_square_quantile(0.975, static_cast<double>(summary.dof - 1));
}

}  // namespace

double order_of(double weight) {
    constexpr int places = 9;
    return rounded_to(weight, places);
}

double Ranking::probability(double weight) const {
    return std::exp(weight - total);
}

Ranking rank_causes(const Evidence& evidence, const Causes& causes, const SuspectPriors& priors) {
    Ranker ranker(evidence, causes, priors);
    Ranking ranking = ranker.run();
    if (leaves_much(causes, evidence, ranking)) {
        add_pairs(
            evidence, causes, [&](const Cause& cause) { return ranker.log_prior(cause); }, ranking);
        sort_stably(ranking.best, heavier);
    }
    return ranking;
}

}  // namespace fallwright
