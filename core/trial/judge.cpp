#include "trial/judge.h"

#include <cmath>

#include "trial/join_checks.h"
#include "trial/words.h"

namespace fallwright {

namespace {

constexpr double thirty_metres = 30;
// A larger one is more likely a slip than an error of the instrument: practitioners' rule.
constexpr double largest_error = 5e-4;
constexpr double certain = 3;  // sds; an entry that expects larger errors may have them

bool beyond_belief(const TrialOutcome& outcome, const EntryErrors& entry, std::size_t i) {
    if (!outcome.seen[i]) return false;
    const double off = std::fabs(outcome.value[i] - entry.value[i]);
    return off > largest_error && off > certain * entry.sd[i];
}

// What the errors seen come to at a distance, the axes of a tilt as the steepest of both.
struct AtDistance {
    double value = NAN, sd = NAN;
};

// Sums of independent errors would do; those of one check hang together, hence the covariance.
AtDistance at_distance(const TrialOutcome& outcome, double distance) {
    ErrorVector factor{};
    const auto value = [&](std::size_t i) { return outcome.seen[i] ? outcome.value[i] : 0.0; };
    const double steepest = std::sqrt(value(0) * value(0) + value(1) * value(1));
    bool any = false;
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (!outcome.seen[i]) continue;
        any = true;
        const double along = steepest > 0 ? value(i) / steepest : std::sqrt(0.5);
        factor[i] = i < 2 ? along : (value(i) < 0 ? -1 : 1);
    }
    if (!any) return {};
    double variance = 0;
    for (std::size_t i = 0; i < tested_errors; ++i) {
        for (std::size_t j = 0; j < tested_errors; ++j) {
            if (factor[i] != 0 && factor[j] != 0)
                variance += factor[i] * factor[j] * outcome.covariance[i][j];
        }
    }
    return {distance * (steepest + std::fabs(value(2)) + std::fabs(value(3))),
            distance * std::sqrt(variance > 0 ? variance : 0)};
}

void say_scatter(const Book& book, const TrialOutcome& outcome, Findings& findings) {
    const CheckWords words(book, outcome);
    const Scatter& scatter = outcome.scatter;
    const bool more = scatter.dof > 0 && scatter.found > scatter.limit;
    if (outcome.moved)
        findings.push_back(finding(Code::TrialMoved, words.about(),
                                   words.check() + ": the tripod was moved between turns of one station"));
    if (outcome.drifts)
        findings.push_back(finding(Code::TrialDrift, words.about(),
                                   words.check() + ": the readings drift by " + words.length(outcome.drift) +
                                       " from shot to shot (\u00b1 " + words.length(outcome.drift_sd) + ")"));
    if (more && outcome.consistent)
        findings.push_back(finding(Code::TrialScatter, words.about(),
                                   words.check() + ": one reading scatters by " +
                                       words.length(scatter.found) + " where " +
                                       words.length(scatter.stated) + " is stated or assumed; up to " +
                                       words.length(scatter.limit) + " is chance"));
}

// The shots against each other, and each error against what any instrument has.
void say_inconsistent(const Book& book, const TrialOutcome& outcome, const InstrumentErrors& errors,
                      Findings& findings) {
    const CheckWords words(book, outcome);
    const EntryErrors entry = entry_errors(errors);
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (!beyond_belief(outcome, entry, i)) continue;
        findings.push_back(finding(Code::TrialInconsistent, words.about(),
                                   words.check() + ": a " + words.error(i) + " of " +
                                       words.ratio(outcome.value[i]) +
                                       " is more than instruments are out: more likely a slip in the shots "
                                       "than an error of " +
                                       words.instrument() + "; it does not count for the levels"));
        return;
    }
    const ShotFit* worst = nullptr;
    for (const ShotFit& shot : outcome.shots) {
        if (std::isnan(shot.w)) continue;
        if (worst == nullptr || std::fabs(shot.w) > std::fabs(worst->w)) worst = &shot;
    }
    if (worst == nullptr) return;
    findings.push_back(finding(Code::TrialInconsistent, words.about(),
                               words.check() +
                                   ": its shots disagree by more than readings can, most of all " +
                                   words.shot(*worst) + "; it does not count for the levels"));
}

void say_limit(const Book& book, const TrialOutcome& outcome, Findings& findings) {
    if (!outcome.passes || !outcome.consistent) return;
    const CheckWords words(book, outcome);
    const double limit = book.trials[outcome.trial].limit;
    const std::string found = words.check() + ": " + words.instrument() + " is out by " +
                              words.length(outcome.at_30_m) + " at 30 m (\u00b1 " +
                              words.length(outcome.at_30_m_sd) + "), ";
    constexpr double two_sided = 1.96;
    if (!*outcome.passes) {
        findings.push_back(finding(Code::TrialFails, words.about(),
                                   found + "more than the limit of " + words.length(limit)));
    } else if (outcome.at_30_m + two_sided * outcome.at_30_m_sd > limit) {
        findings.push_back(finding(Code::TrialTooClose, words.about(),
                                   found + "within the limit of " + words.length(limit) +
                                       " as measured, but that cannot be told for sure"));
    }
}

}  // namespace

void judge_outcome(const Book& book, const InstrumentErrors& errors, const Job& job, TrialOutcome& outcome) {
    const EntryErrors entry = entry_errors(errors);
    for (std::size_t i = 0; i < tested_errors; ++i)
        outcome.consistent = outcome.consistent && !beyond_belief(outcome, entry, i);
    const AtDistance near = at_distance(outcome, thirty_metres);
    outcome.at_30_m = near.value;
    outcome.at_30_m_sd = near.sd;
    const double limit = book.trials[outcome.trial].limit;
    if (!std::isnan(near.value)) outcome.passes = as_printed(book, near.value) <= as_printed(book, limit);
    const auto sight = job.longest_sights.find({outcome.instrument, outcome.stretch});
    outcome.longest_sight = sight == job.longest_sights.end() || sight->second == 0 ? NAN : sight->second;
    const AtDistance far = at_distance(outcome, outcome.longest_sight);
    outcome.at_longest = far.value;
    outcome.at_longest_sd = far.sd;
    if (!std::isnan(far.value) && !std::isnan(job.tolerance))
        outcome.matters = far.value > job.tolerance / share_of_tolerance;
}

void say_outcome(const Book& book, const TrialOutcome& outcome, const InstrumentErrors& errors,
                 Findings& findings) {
    const CheckWords words(book, outcome);
    if (!outcome.passes && !book.trials[outcome.trial].shots.empty())
        findings.push_back(finding(Code::TrialSeesNothing, words.about(),
                                   words.check() + " can see no error of " + words.instrument()));
    if (!outcome.consistent) say_inconsistent(book, outcome, errors, findings);
    say_scatter(book, outcome, findings);
    say_limit(book, outcome, findings);
}

}  // namespace fallwright
