#include "plan/search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "base/stable_order.h"

namespace fallwright {

namespace {

constexpr double least_effort = 1;  // what costs nothing is taken like a reading
constexpr std::int64_t report_every = 16;
constexpr double rounding = 1e-12;

}  // namespace

std::string_view change_word(Change change) {
    static constexpr std::array<std::string_view, 9> words = {
        "read-again",   "read-all-again", "half-round", "benchmark",    "other-setup",
        "change-point", "move-setup",     "add-setup",  "remove-setup",
    };
    return words[static_cast<std::size_t>(change)];
}

Search::Search(Grounds& grounds, Assessor& assessor, std::int64_t most, const PlanProgress& progress)
    : grounds_(grounds), assessor_(assessor), most_(most), progress_(progress) {}

void Search::report(double worst) const {
    if (progress_ && assessor_.solved() % report_every == 0)
        progress_(std::min(assessor_.solved(), most_), most_, worst);
}

// Of the layout judged last.
std::int64_t Search::out_of_range(const Layout& layout) const {
    const Book& book = grounds_.work.book();
    std::int64_t count = 0;
    for (std::size_t i = 0; i < layout.sights.size(); ++i) {
        const std::size_t reading = assessor_.last().first + i;
        const auto setup = static_cast<std::size_t>(book.readings[reading].setup_at);
        const Maybe& range =
            book.instruments[static_cast<std::size_t>(book.setups[setup].instrument_at)].range;
        const SightPlace& place = assessor_.last().where.readings[reading];
        count += range.has() && !place.assumed_d && place.d > range.value ? 1 : 0;
    }
    return count;
}

bool Search::counts(const Move& move, const Score& score, const Score& before, std::int64_t out_before) {
    if (!score.known()) return false;
    if (before.known() && score.worst > before.worst + rounding) return false;
    return out_of_range(move.layout) <= out_before;
}

Search::Try Search::tried(const Move& move, const Layout& before, const Score& score_before,
                          const Score& score) const {
    Try one;
    one.layout = move.layout;
    one.score = score;
    one.advice = {move.change, move.setups, move.points, move.place, 0, 0, 0, score.worst, score.mean};
    one.advice.effort = move.layout.effort() - before.effort();
    one.advice.worst_gain = score_before.worst - score.worst;
    one.advice.mean_gain = score_before.mean - score.mean;
    one.value = (one.advice.worst_gain + one.advice.mean_gain) / std::fmax(least_effort, one.advice.effort);
    return one;
}

Found Search::better(const Layout& start) {
    Found found{start, assessor_.score(start), {}};
    const double wanted = assessor_.wanted_sd();
    while (found.score.known() && !(found.score.worst <= wanted) && left() > 0) {
        const std::int64_t out = (assessor_.score(found.layout), out_of_range(found.layout));
        const double enough = std::fmax(least_gain, least_share * (found.score.worst + found.score.mean));
        std::optional<Try> best;
        const NameId worst = assessor_.stations()[found.score.worst_station].point;
        each_move(grounds_, found.layout, worst, [&](const Move& move) {
            if (left() <= 0) return;
            const Score score = assessor_.score(move.layout);
            report(found.score.worst);
            if (!counts(move, score, found.score, out)) return;
            Try one = tried(move, found.layout, found.score, score);
            if (one.advice.worst_gain + one.advice.mean_gain < enough) return;
            if (!best || one.value > best->value) best = std::move(one);
        });
        if (!best) break;
        found.layout = std::move(best->layout);
        found.score = best->score;
        found.steps.push_back(std::move(best->advice));
    }
    return found;
}

std::vector<Advice> Search::alone(const Layout& layout) {
    std::vector<Advice> best;
    const Score before = assessor_.score(layout);
    if (!before.known()) return best;
    const std::int64_t out = out_of_range(layout);
    const NameId worst = assessor_.stations()[before.worst_station].point;
    each_move(grounds_, layout, worst, [&](const Move& move) {
        const Score score = assessor_.score(move.layout);
        report(before.worst);
        if (!counts(move, score, before, out)) return;
        const Try one = tried(move, layout, before, score);
        const double gain = one.advice.worst_gain + one.advice.mean_gain;
        if (gain < least_gain) return;
        const auto same = std::find_if(best.begin(), best.end(),
                                       [&](const Advice& each) { return each.change == one.advice.change; });
        if (same == best.end()) {
            best.push_back(one.advice);
        } else if (gain > same->worst_gain + same->mean_gain) {
            *same = one.advice;
        }
    });
    sort_stably(best, [](const Advice& a, const Advice& b) {
        return a.worst_gain + a.mean_gain > b.worst_gain + b.mean_gain;
    });
    return best;
}

}  // namespace fallwright
