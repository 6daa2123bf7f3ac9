#include "trial/trial.h"

#include <algorithm>
#include <cmath>

#include "effect/stretches.h"
#include "trial/join_checks.h"
#include "trial/judge.h"
#include "trial/solve.h"

namespace fallwright {

namespace {

// The errors of its kind of instrument, and any other that the entry says it has.
std::array<bool, tested_errors> tested_in(const Instrument& instrument, const EntryErrors& entry) {
    const bool level = instrument.type == InstrumentType::OpticalLevel;
    std::array<bool, tested_errors> tested = {!level, !level, !level, level};
    for (std::size_t i = 0; i < tested_errors; ++i)
        tested[i] = tested[i] || entry.sd[i] > 0 || entry.value[i] != 0;
    return tested;
}

class Checker {
  public:
    Checker(const Book& book, const Where& where)
        : book_(book), curvature_(book), stretches_(book), instruments_(book.instruments) {
        for (const Instrument& instrument : book.instruments) errors_.push_back(errors_of(instrument));
        if (!book.trials.empty()) trials_.job = job_of(book, where);
    }

    Trials run() {
        for (std::size_t i = 0; i < book_.trials.size(); ++i) check(i);
        if (book_.trials.empty()) return std::move(trials_);
        trials_.checked = join_checks(trials_.outcomes, errors_);
        say_together(book_, errors_, trials_, trials_.findings);
        return std::move(trials_);
    }

  private:
    void check(std::size_t index) {
        const Trial& trial = book_.trials[index];
        TrialOutcome outcome;
        outcome.trial = index;
        outcome.instrument = static_cast<std::size_t>(instruments_(trial.instrument));
        outcome.stretch = stretches_.of(outcome.instrument, trial.entry);
        const InstrumentErrors& errors = errors_[outcome.instrument];
        outcome.tested = tested_in(book_.instruments[outcome.instrument], entry_errors(errors));
        const UsableShots shots = usable_shots(book_, trial, errors, curvature_);
        trials_.findings.insert(trials_.findings.end(), shots.findings.begin(), shots.findings.end());
        solve_trial(shots, errors, outcome);
        judge_outcome(book_, errors, trials_.job, outcome);
        say_outcome(book_, outcome, errors, trials_.findings);
        trials_.outcomes.push_back(std::move(outcome));
    }

    const Book& book_;
    Curvature curvature_;
    Stretches stretches_;
    ByName instruments_;
    std::vector<InstrumentErrors> errors_;
    Trials trials_;
};

}  // namespace

Job job_of(const Book& book, const Where& where) {
    const Stretches stretches(book);
    Job job;
    for (const std::uint32_t i : book.readings_by_time) {
        const Reading& reading = book.readings[i];
        const auto instrument =
            static_cast<std::size_t>(book.setups[static_cast<std::size_t>(reading.setup_at)].instrument_at);
        double& longest = job.longest_sights[{instrument, stretches.of(instrument, reading.entry)}];
        const SightPlace& place = where.readings[i];
        if (!place.assumed_d) longest = std::max(longest, place.d);
    }
    job.tolerance = NAN;
    for (const Tolerance& tolerance : book.tolerances) {
        for (const Maybe& side : {tolerance.below, tolerance.above}) {
            const double allowed = std::fabs(side.value);
            if (side.has() && allowed > 0 && !(allowed >= job.tolerance)) job.tolerance = allowed;
        }
    }
    return job;
}

Trials check_instruments(const Book& book, const Where& where) {
    return Checker(book, where).run();
}

}  // namespace fallwright
