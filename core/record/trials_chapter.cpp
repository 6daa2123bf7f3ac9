#include <cmath>

#include "base/print.h"
#include "record/chapters.h"
#include "record/trial_words.h"

namespace fallwright::record {

namespace {

// Errors of instruments are smaller than a millimetre.
std::string tenths(const Writer& out, double metres) {
    return fixed(out.book.in_unit(metres), 4);
}

void add_errors(Writer& out, const TrialOutcome& outcome) {
    constexpr double thirty_metres = 30, per_thousand = 1000;
    const std::string mm = small_unit(out.unit);
    Rows rows("", {words_column("error"), figure_column("mm/m"), figure_column("\u00b1"),
                   figure_column("at 30 m, " + mm), figure_column("\u00b1 " + mm)});
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (!outcome.tested[i] || std::isnan(outcome.value[i])) continue;
        std::array<bool, tested_errors> only{};
        only[i] = true;
        rows.add({error_names(only, only).front(), fixed(per_thousand * outcome.value[i], 3),
                  fixed(per_thousand * outcome.sd[i], 3),
                  signed_small(thirty_metres * outcome.value[i], out.unit),
                  small(thirty_metres * outcome.sd[i], out.unit)});
    }
    out.table(std::move(rows));
}

void add_shots(Writer& out, const TrialOutcome& outcome) {
    Rows rows("", {words_column("station"), words_column("peg"), words_column("turn"),
                   figure_column("facing, \u00b0"), figure_column("distance"), figure_column("read"),
                   figure_column("should read"), figure_column("left, " + small_unit(out.unit))});
    for (const ShotFit& fit : outcome.shots) {
        const Shot& shot = out.book.trials[outcome.trial].shots[fit.shot];
        rows.add({out.name(shot.station), out.name(shot.peg), out.name(shot.turn),
                  shot.facing.has() ? trimmed(shot.facing.value, 1) : "", level(fit.dist, out.unit),
                  tenths(out, fit.value), tenths(out, fit.corrected), signed_small(fit.residual, out.unit)});
    }
    out.table(std::move(rows));
}

}  // namespace

void add_trials(Writer& out) {
    out.heading(1, "Instrument checks");
    for (const TrialOutcome& outcome : out.evaluation.trials.outcomes) {
        out.heading(2, out.name(out.book.trials[outcome.trial].name) + ", " +
                           out.name(out.book.instruments[outcome.instrument].name));
        std::vector<std::string> items;
        for (std::string text :
             {trial_heading(out.book, outcome), trial_verdict(out.book, outcome), trial_sees(outcome),
              trial_job(out.evaluation, outcome), trial_scatter(outcome, out.unit)}) {
            if (!text.empty()) items.push_back(std::move(text));
        }
        out.list(std::move(items));
        add_errors(out, outcome);
        add_shots(out, outcome);
        out.say("A check on site is no calibration certificate.", sheet::Tone::Small);
    }
}

}  // namespace fallwright::record
