#include "shells/cli/people_trial.h"

#include <cmath>

#include "base/print.h"
#include "desk/trial_answer.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

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
    std::string mm(double metres) const { return small(std::fabs(metres), unit_) + " " + small_unit(unit_); }

    std::string instrument(std::size_t at) const { return book_.name(book_.instruments[at].name); }

    std::string check(const TrialOutcome& outcome) const {
        std::string text = "Instrument check " + book_.name(book_.trials[outcome.trial].name) + ", " +
                           instrument(outcome.instrument) + ": checked on site";
        const std::string by = checked_by(book_, outcome), on = checked_on(book_, outcome);
        if (!by.empty()) text += " by " + by;
        if (!on.empty()) text += " on " + on;
        return text + "\n" + verdict(outcome) + errors(outcome) + sees(outcome) + job(outcome) +
               scatter(outcome) + shots(outcome);
    }

    std::string verdict(const TrialOutcome& outcome) const {
        const std::string limit = mm(book_.trials[outcome.trial].limit);
        if (!outcome.passes) return "  sees nothing of the instrument\n";
        if (!outcome.consistent) return "  a slip is likelier than the instrument: the check is not used\n";
        return std::string("  ") + (*outcome.passes ? "passes" : "does not pass") + ": out by " +
               mm(outcome.at_30_m) + " at 30 m ± " + small(outcome.at_30_m_sd, unit_) + "; limit " + limit +
               "\n";
    }

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

    static std::string list(const std::vector<std::string>& names) {
        std::string text;
        for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
        return text.empty() ? "nothing" : text;
    }

    static std::string sees(const TrialOutcome& outcome) {
        std::array<bool, tested_errors> blind{};
        for (std::size_t i = 0; i < tested_errors; ++i) blind[i] = !outcome.seen[i];
        return "  sees " + list(error_names(outcome.tested, outcome.seen)) + "; blind to " +
               list(error_names(outcome.tested, blind)) + "\n";
    }

    std::string job(const TrialOutcome& outcome) const {
        if (std::isnan(outcome.at_longest)) return "";
        std::string text = "  at the longest sight here, " + level(outcome.longest_sight, unit_) + ": " +
                           mm(outcome.at_longest) + " ± " + small(outcome.at_longest_sd, unit_);
        if (outcome.matters)
            text += std::string(*outcome.matters ? "; that matters" : "; that hardly matters") + " where ± " +
                    mm(evaluation_.trials.job.tolerance) + " is asked for";
        return text + "\n";
    }

    std::string scatter(const TrialOutcome& outcome) const {
        const Scatter& scatter = outcome.scatter;
        if (scatter.dof <= 0) return "  nothing checks the shots: each could be wrong unnoticed\n";
        return "  one reading scatters by " + mm(scatter.found) + ", stated " + mm(scatter.stated) +
               "; up to " + mm(scatter.limit) + " is chance (" + std::to_string(scatter.dof) + " to spare)\n";
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
