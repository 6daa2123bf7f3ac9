#include "record/trial_words.h"

#include <cmath>

#include "record/words.h"

namespace fallwright::record {

namespace {

std::string mm(double metres, Unit unit) {
    return small(std::fabs(metres), unit) + " " + small_unit(unit);
}

std::string list(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text.empty() ? "nothing" : text;
}

}  // namespace

std::string checked_by(const Book& book, const TrialOutcome& outcome) {
    return book.name(book.entries[book.trials[outcome.trial].entry].by);
}

std::string checked_on(const Book& book, const TrialOutcome& outcome) {
    return format_time(book.entries[book.trials[outcome.trial].entry].at);
}

std::string trial_heading(const Book& book, const TrialOutcome& outcome) {
    std::string text = "Instrument check " + book.name(book.trials[outcome.trial].name) + ", " +
                       book.name(book.instruments[outcome.instrument].name) + ": checked on site";
    const std::string by = checked_by(book, outcome), on = checked_on(book, outcome);
    if (!by.empty()) text += " by " + by;
    if (!on.empty()) text += " on " + on;
    return text;
}

std::string trial_verdict(const Book& book, const TrialOutcome& outcome) {
    if (!outcome.passes) return "sees nothing of the instrument";
    if (!outcome.consistent) return "a slip is likelier than the instrument: the check is not used";
    return std::string(*outcome.passes ? "passes" : "does not pass") + ": out by " +
           mm(outcome.at_30_m, book.unit) + " at 30 m \u00b1 " + small(outcome.at_30_m_sd, book.unit) +
           "; limit " + mm(book.trials[outcome.trial].limit, book.unit);
}

std::string trial_sees(const TrialOutcome& outcome) {
    std::array<bool, tested_errors> blind{};
    for (std::size_t i = 0; i < tested_errors; ++i) blind[i] = !outcome.seen[i];
    return "sees " + list(error_names(outcome.tested, outcome.seen)) + "; blind to " +
           list(error_names(outcome.tested, blind));
}

std::string trial_job(const Evaluation& evaluation, const TrialOutcome& outcome) {
    if (std::isnan(outcome.at_longest)) return "";
    const Unit unit = evaluation.book->unit;
    std::string text = "at the longest sight here, " + level(outcome.longest_sight, unit) + ": " +
                       mm(outcome.at_longest, unit) + " \u00b1 " + small(outcome.at_longest_sd, unit);
    if (outcome.matters)
        text += std::string(*outcome.matters ? "; that matters" : "; that hardly matters") +
                " where \u00b1 " + mm(evaluation.trials.job.tolerance, unit) + " is asked for";
    return text;
}

std::string trial_scatter(const TrialOutcome& outcome, Unit unit) {
    const Scatter& scatter = outcome.scatter;
    if (scatter.dof <= 0) return "nothing checks the shots: each could be wrong unnoticed";
    return "one reading scatters by " + mm(scatter.found, unit) + ", stated " + mm(scatter.stated, unit) +
           "; up to " + mm(scatter.limit, unit) + " is chance (" + std::to_string(scatter.dof) + " to spare)";
}

}  // namespace fallwright::record
