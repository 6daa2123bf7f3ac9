// What all checks of an instrument say together: whether they agree, what none of them sees, which are too
// old.
#include <cmath>
#include <string>

#include "adjust/statistics.h"
#include "base/print.h"
#include "trial/join_checks.h"
#include "trial/judge.h"
#include "trial/words.h"

namespace fallwright {

namespace {

constexpr double hardly_chance = 3.29;  // sds; by chance in one of a thousand

class Together {
  public:
    Together(const Book& book, const std::vector<InstrumentErrors>& errors, const Trials& trials,
             Findings& findings)
        : book_(book), errors_(errors), trials_(trials), findings_(findings) {}

    void run() {
        for (std::size_t i = 0; i < trials_.outcomes.size(); ++i) {
            compare(i);
            compare_scatter(i);
        }
        for (const auto& [which, sight] : trials_.job.longest_sights) {
            say_outdated(which.first, which.second);
            say_blind(which.first, which.second, sight);
        }
    }

  private:
    std::string instrument(std::size_t at) const { return book_.name(book_.instruments[at].name); }

    void compare(std::size_t later) {
        const TrialOutcome& b = trials_.outcomes[later];
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            const TrialOutcome& a = trials_.outcomes[earlier];
            const bool comparable =
                a.instrument == b.instrument && a.stretch == b.stretch && a.consistent && b.consistent;
            if (!comparable) continue;
            for (std::size_t i = 0; i < tested_errors; ++i) {
                if (!a.seen[i] || !b.seen[i] || !differ(a, b, i)) continue;
                const CheckWords first(book_, a), second(book_, b);
                findings_.push_back(
                    finding(Code::TrialsDisagree, {second.about()[0], second.about()[1], first.about()[1]},
                            second.check() + " finds a " + CheckWords::error(i) + " of " +
                                CheckWords::ratio(b.value[i]) + ", " + first.check() + " one of " +
                                CheckWords::ratio(a.value[i]) + ": more than both are uncertain"));
                break;
            }
        }
    }

    // Against the last check before it that could tell, adjusted or not: whoever reads and the air stay the
    // same.
    void compare_scatter(std::size_t later) {
        const TrialOutcome& b = trials_.outcomes[later];
        for (std::size_t k = later; k-- > 0;) {
            const TrialOutcome& a = trials_.outcomes[k];
            if (a.instrument != b.instrument || a.scatter.dof <= 0 || b.scatter.dof <= 0) continue;
            if (!scatter_alike(a.scatter, b.scatter)) {
                const CheckWords first(book_, a), second(book_, b);
                findings_.push_back(finding(
                    Code::TrialsScatter, {second.about()[0], second.about()[1], first.about()[1]},
                    "one reading scatters by " + second.length(b.scatter.found) + " in " + second.check() +
                        ", by " + first.length(a.scatter.found) + " in " + first.check()));
            }
            return;
        }
    }

    // Two-sided at 5 %, after the pattern of ISO 17123-2 and -6.
    static bool scatter_alike(const Scatter& a, const Scatter& b) {
        constexpr double upper = 0.975;
        const auto dof_a = static_cast<double>(a.dof), dof_b = static_cast<double>(b.dof);
        const double of_a = a.chi2 / dof_a, of_b = b.chi2 / dof_b;
        return of_b <= of_a * adjust::variance_ratio_quantile(upper, dof_b, dof_a) &&
               of_a <= of_b * adjust::variance_ratio_quantile(upper, dof_a, dof_b);
    }

    static bool differ(const TrialOutcome& a, const TrialOutcome& b, std::size_t i) {
        const double sd = std::sqrt(a.sd[i] * a.sd[i] + b.sd[i] * b.sd[i]);
        return std::fabs(a.value[i] - b.value[i]) > hardly_chance * sd;
    }

    // Only where an earlier check counted: an instrument never checked is said to be assumed elsewhere.
    void say_outdated(std::size_t at, std::int32_t stretch) {
        if (trials_.checked.count({at, stretch}) > 0) return;
        const TrialOutcome* last = nullptr;
        for (const TrialOutcome& outcome : trials_.outcomes) {
            const bool before = outcome.instrument == at && outcome.stretch < stretch && outcome.consistent;
            if (before && (last == nullptr || outcome.stretch >= last->stretch)) last = &outcome;
        }
        if (last == nullptr) return;
        const CheckWords words(book_, *last);
        findings_.push_back(finding(Code::TrialOutdated, words.about(),
                                    words.check() + " is older than the last adjustment of " +
                                        words.instrument() + "; what is read since rests on its entry"));
    }

    void say_blind(std::size_t at, std::int32_t stretch, double sight) {
        const auto checked = trials_.checked.find({at, stretch});
        if (checked == trials_.checked.end() || std::isnan(trials_.job.tolerance)) return;
        const EntryErrors entry = entry_errors(errors_[at]);
        for (std::size_t i = 0; i < tested_errors; ++i) {
            const double reach = sight * entry.sd[i];
            if (checked->second.seen[i] || reach <= trials_.job.tolerance / share_of_tolerance) continue;
            findings_.push_back(finding(
                Code::TrialBlind, {instrument(at)},
                "no check of " + instrument(at) + " sees its " + CheckWords::error(i) +
                    ": what is believed of it comes to \u00b1 " + CheckWords::length_text(book_, reach) +
                    " at " + as_text(sight) + ", the longest sight here, where " +
                    CheckWords::length_text(book_, trials_.job.tolerance) + " is asked for"));
            return;
        }
    }

    std::string as_text(double metres) const;

    const Book& book_;
    const std::vector<InstrumentErrors>& errors_;
    const Trials& trials_;
    Findings& findings_;
};

std::string Together::as_text(double metres) const {
    return trimmed(book_.in_unit(metres), 1) + (book_.unit == Unit::Foot ? " ft" : " m");
}

}  // namespace

void say_together(const Book& book, const std::vector<InstrumentErrors>& errors, const Trials& trials,
                  Findings& findings) {
    Together(book, errors, trials, findings).run();
}

}  // namespace fallwright
