#include "desk/trial_answer.h"

#include <cmath>

#include "book/time.h"
#include "desk/absent.h"
#include "desk/evaluation_out.h"
#include "desk/write_json.h"
#include "record/trial_words.h"

namespace fallwright {

namespace {

constexpr std::size_t tilt_main = 0, tilt_cross = 1, cone = 2, collimation = 3;

class TrialWriter : EvaluationOut {
  public:
    TrialWriter(const Evaluation& evaluation, JsonOut& out)
        : EvaluationOut(evaluation, out), trials_(evaluation.trials) {}

    void list() {
        out_.key("trials").begin_array();
        for (const TrialOutcome& outcome : trials_.outcomes) {
            out_.begin_object();
            found(outcome);
            out_.end_object();
        }
        out_.end_array();
    }

    void whole() {
        out_.begin_object().integer("version", format_version).text("unit", unit_word(book_.unit));
        out_.key("trials").begin_array();
        for (const TrialOutcome& outcome : trials_.outcomes) {
            out_.begin_object();
            found(outcome);
            more(outcome);
            shots(outcome);
            out_.end_object();
        }
        out_.end_array();
        instruments();
        write_findings(out_, evaluation_.findings);
        out_.end_object();
    }

  private:
    // Errors are no lengths: six figures, the same in feet.
    void error(const std::string& key, double value, double sd) {
        out_.figures(key, value, significant_figures).figures(key + "_sd", sd, significant_figures);
    }

    void pair(std::string_view key, double main, double cross) {
        if (std::isnan(main) && std::isnan(cross)) {
            out_.null(key);
            return;
        }
        out_.key(key).begin_array();
        out_.figures(main, significant_figures).figures(cross, significant_figures).end_array();
    }

    void yes_no(std::string_view key, const std::optional<bool>& value) {
        if (value) {
            out_.boolean(key, *value);
        } else {
            out_.null(key);
        }
    }

    void errors(const std::array<bool, tested_errors>& tested, const ErrorVector& value,
                const ErrorVector& sd) {
        if (tested[collimation]) error("collimation", value[collimation], sd[collimation]);
        if (tested[cone]) error("cone", value[cone], sd[cone]);
        if (tested[tilt_main] || tested[tilt_cross]) {
            pair("tilt", value[tilt_main], value[tilt_cross]);
            pair("tilt_sd", sd[tilt_main], sd[tilt_cross]);
        }
    }

    void names(std::string_view key, const std::vector<std::string>& all) {
        out_.key(key).begin_array();
        for (const std::string& name : all) out_.text(name);
        out_.end_array();
    }

    void found(const TrialOutcome& outcome) {
        out_.text("name", book_.names.text(book_.trials[outcome.trial].name));
        out_.text("instrument", book_.names.text(book_.instruments[outcome.instrument].name));
        errors(outcome.tested, outcome.value, outcome.sd);
        std::array<bool, tested_errors> blind{};
        for (std::size_t i = 0; i < tested_errors; ++i) blind[i] = !outcome.seen[i];
        names("sees", error_names(outcome.tested, outcome.seen));
        names("blind_to", error_names(outcome.tested, blind));
        length("at_30_m", outcome.at_30_m);
        yes_no("passes", outcome.passes);
    }

    void more(const TrialOutcome& outcome) {
        length("at_30_m_sd", outcome.at_30_m_sd);
        length("limit", book_.trials[outcome.trial].limit);
        length("longest_sight", outcome.longest_sight);
        length("at_longest_sight", outcome.at_longest);
        length("at_longest_sight_sd", outcome.at_longest_sd);
        length("tolerance", trials_.job.tolerance);
        yes_no("matters", outcome.matters);
        out_.boolean("consistent", outcome.consistent);
        text_or_null(out_, "checked_on", record::checked_on(book_, outcome));
        text_or_null(out_, "checked_by", record::checked_by(book_, outcome));
        scatter(outcome);
    }

    void scatter(const TrialOutcome& outcome) {
        const Scatter& scatter = outcome.scatter;
        out_.key("scatter").begin_object().integer("dof", scatter.dof);
        out_.figures("chi2", scatter.chi2, significant_figures);
        length("found", scatter.found);
        length("stated", scatter.stated);
        length("limit", scatter.limit);
        length("drift", outcome.drift);
        length("drift_sd", outcome.drift_sd);
        out_.end_object();
    }

    void shots(const TrialOutcome& outcome) {
        const Trial& trial = book_.trials[outcome.trial];
        out_.key("shots").begin_array();
        for (const ShotFit& fit : outcome.shots) {
            const Shot& shot = trial.shots[fit.shot];
            out_.begin_object();
            out_.text("station", book_.names.text(shot.station)).text("peg", book_.names.text(shot.peg));
            length("dist", fit.dist);
            out_.figures("facing", shot.facing.value, significant_figures);
            text_or_null(out_, "turn", book_.name(shot.turn));
            length("value", fit.value);
            length("corrected", fit.corrected);
            length("residual", fit.residual);
            length("sd", fit.sd);
            out_.figures("w", fit.w, significant_figures);
            out_.number("redundancy", fit.redundancy, probability_places);
            out_.end_object();
        }
        out_.end_array();
    }

    // What readings of a stretch take from all its checks and the entry together.
    void instruments() {
        out_.key("instruments").begin_array();
        for (const auto& [which, checked] : trials_.checked) {
            std::array<bool, tested_errors> tested{};
            out_.begin_object().text("name", book_.names.text(book_.instruments[which.first].name));
            out_.integer("adjusted_before", which.second).key("checks").begin_array();
            for (const TrialOutcome& outcome : trials_.outcomes) {
                const bool counts = outcome.instrument == which.first && outcome.stretch == which.second &&
                                    outcome.consistent && !outcome.shots.empty();
                if (!counts) continue;
                tested = outcome.tested;
                out_.text(book_.names.text(book_.trials[outcome.trial].name));
            }
            out_.end_array();
            ErrorVector sd{};
            for (std::size_t i = 0; i < tested_errors; ++i) sd[i] = std::sqrt(checked.covariance[i][i]);
            errors(tested, checked.value, sd);
            out_.end_object();
        }
        out_.end_array();
    }

    const Trials& trials_;
};

}  // namespace

void write_trials(const Evaluation& evaluation, JsonOut& out) {
    if (!evaluation.book->trials.empty()) TrialWriter(evaluation, out).list();
}

void write_checks(const Evaluation& evaluation, JsonOut& out) {
    TrialWriter(evaluation, out).whole();
}

}  // namespace fallwright
