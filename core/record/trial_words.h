// trial_words: what an instrument check says, in sentences.
//
// An instrument check is "checked on site, by, on"; it is no calibration certificate.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::record {

// Who made the check, and when: empty where the entry does not say.
std::string checked_by(const Book& book, const TrialOutcome& outcome);
std::string checked_on(const Book& book, const TrialOutcome& outcome);

// "Instrument check four directions, laser: checked on site by Ines on ...".
std::string trial_heading(const Book& book, const TrialOutcome& outcome);
// "passes: out by 1.3 mm at 30 m +- 0.8; limit 1.5 mm".
std::string trial_verdict(const Book& book, const TrialOutcome& outcome);
// "sees cone; blind to tilt".
std::string trial_sees(const TrialOutcome& outcome);
// What it comes to at the longest sight of this book, and whether that matters; "" without a sight.
std::string trial_job(const Evaluation& evaluation, const TrialOutcome& outcome);
// How much one reading scatters, or that nothing checks the shots.
std::string trial_scatter(const TrialOutcome& outcome, Unit unit);

}  // namespace fallwright::record
