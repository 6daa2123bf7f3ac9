#include "shells/cli/people_trial.h"

#include <cmath>

#include "base/print.h"
#include "record/trial_words.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

using record::trial_heading;
using record::trial_job;
using record::trial_scatter;
using record::trial_sees;
using record::trial_verdict;

class TrialsText {
  public:
    explicit TrialsText(const Evaluation& evaluation)
        : evaluation_(evaluation), book_(*evaluation.book), unit_(book_.unit) {}

    std::string text() const {
        std::string text;
        for (const TrialOutcome& outcome : evaluation_.trials.outcomes) text += check(outcome) + "\n";
        return text.empty() ? "The book has no instrument check.\n" : text + together();
    }

  private:
    std::string instrument(std::size_t at) const { return book_.name(book_.instruments[at].name); }

    std::string check(const TrialOutcome& outcome) const {
        return trial_heading(book_, outcome) + "\n" + line(trial_verdict(book_, outcome)) + errors(outcome) +
               line(trial_sees(outcome)) + line(trial_job(evaluation_, outcome)) +
               line(trial_scatter(outcome, unit_)) + shots(outcome);
    }

    static std::string line(const std::string& text) { return text.empty() ? "" : "  " + text + "\n"; }

    // One row for each error, in thousandths and in what it comes to.
    void add_rows(Table& table, const std::array<bool, tested_errors>& tested, const ErrorVector& value,
                  const ErrorVector& sd) const {
        constexpr double thirty_metres = 30;
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (!tested[i] || std::isnan(value[i])) continue;
            std::array<bool, tested_errors> only{};
            only[i] = true;
            table.add({error_names(only, only).front(), thousandths(value[i], true),
                       thousandths(sd[i], false), signed_small(thirty_metres * value[i], unit_),
                       small(thirty_metres * sd[i], unit_)});
        }
    }

    static std::string thousandths(double ratio, bool with_sign) {
        constexpr double per_thousand = 1000;
        return (with_sign && ratio >= 0 ? "+" : "") + fixed(per_thousand * ratio, 3);
    }

    Table error_table() const {
        return Table({{"error", Align::Left},
                      {"mm/m"},
                      {"±"},
                      {"at 30 m, " + small_unit(unit_)},
                      {"± " + small_unit(unit_)}});
    }

    std::string errors(const TrialOutcome& outcome) const {
        Table table = error_table();
        add_rows(table, outcome.tested, outcome.value, outcome.sd);
        return table.empty() ? "" : table.text();
    }

    std::string shots(const TrialOutcome& outcome) const {
        Table table({{"station", Align::Left},
                     {"peg", Align::Left},
                     {"turn", Align::Left},
                     {"facing"},
                     {"distance"},
                     {"read"},
                     {"should read"},
                     {"left, " + small_unit(unit_)}});
        for (const ShotFit& fit : outcome.shots) {
            const Shot& shot = book_.trials[outcome.trial].shots[fit.shot];
            table.add({book_.name(shot.station), book_.name(shot.peg), book_.name(shot.turn),
                       shot.facing.has() ? trimmed(shot.facing.value, 1) + "°" : "", level(fit.dist, unit_),
                       tenths(fit.value), tenths(fit.corrected), signed_small(fit.residual, unit_)});
        }
        return table.empty() ? "" : table.text();
    }

    // Errors of instruments are smaller than a millimetre.
    std::string tenths(double metres) const { return fixed(book_.in_unit(metres), 4); }

    std::string together() const {
        std::string text;
        for (const auto& [which, checked] : evaluation_.trials.checked) {
            Table table = error_table();
            ErrorVector sd{};
            std::array<bool, tested_errors> open{};
            for (std::size_t i = 0; i < tested_errors; ++i) {
                sd[i] = std::sqrt(checked.covariance[i][i]);
                open[i] = sd[i] > 0 || checked.value[i] != 0;
            }
            add_rows(table, open, checked.value, sd);
            text += "Readings with " + instrument(which.first) +
                    (which.second > 0 ? " since its last adjustment" : "") +
                    " are corrected for, by its checks and its entry together:\n" + table.text();
        }
        return text;
    }

    const Evaluation& evaluation_;
    const Book& book_;
    Unit unit_;
};

}  // namespace

std::string trials_text(const Evaluation& evaluation) {
    const std::string findings = findings_text(evaluation.findings);
    return TrialsText(evaluation).text() + (findings.empty() ? "" : "\nTo look at\n" + findings);
}

}  // namespace fallwright::cli
