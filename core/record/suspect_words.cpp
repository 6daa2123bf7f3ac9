#include "record/suspect_words.h"

#include <algorithm>

#include "base/print.h"
#include "record/words.h"

namespace fallwright::record {

namespace {

constexpr double least_said = 0.1;

}  // namespace

bool is_said(const Suspect& suspect) {
    return rounded_to(suspect.probability, probability_places) >= least_said;
}

std::string suspect_line(const Evaluation& evaluation) {
    if (evaluation.suspects == nullptr || evaluation.suspects->list.empty()) return "";
    const Suspect& first = evaluation.suspects->list.front();
    if (!is_said(first)) return "";
    return std::string(likely_word(first.probability)) + " (" + percent(first.probability) +
           "): " + SuspectWords(*evaluation.book).what(first.who);
}

bool anything_read(const Evaluation& evaluation) {
    return !evaluation.model->sights.rows.empty();
}

std::string nothing_noticed(const Evaluation& evaluation) {
    if (!anything_read(evaluation)) return "Nothing is read yet, so nothing can be noticed.";
    std::size_t alone = 0;
    double largest = 0;
    for (std::size_t row = 0; row < evaluation.model->sights.rows.size(); ++row) {
        const ReadingFit fit = evaluation.model->fit(row);
        if (fit.redundancy > 0) {
            largest = std::max(largest, fit.detectable);
        } else {
            ++alone;
        }
    }
    const Unit unit = evaluation.book->unit;
    std::string text = "Nothing noticed.";
    if (alone > 0)
        text += " " + std::to_string(alone) + " of " + std::to_string(evaluation.model->sights.rows.size()) +
                " readings are checked by nothing: a slip there would not show.";
    if (largest > 0)
        text += " On the others a slip below " + small(largest, unit) + " " + small_unit(unit) +
                " might not show.";
    return text;
}

const Reading* SuspectWords::reading_of(const std::string& id) const {
    const auto found = std::find_if(book_.readings.begin(), book_.readings.end(),
                                    [&](const Reading& reading) { return book_.id_of(reading.entry) == id; });
    return found == book_.readings.end() ? nullptr : &*found;
}

std::string SuspectWords::reading(const std::string& id) const {
    const Reading* found = reading_of(id);
    return "reading " + id + (found == nullptr ? "" : " (" + book_.name(found->point) + ")");
}

std::string SuspectWords::where(const Accused& who) const {
    switch (who.kind) {
        case SuspectKind::WrongBenchmark: {
            std::string all;
            for (const std::string& name : who.about) all += (all.empty() ? "" : ", ") + name;
            return all;
        }
        case SuspectKind::InstrumentOut:
            return who.about.front();
        case SuspectKind::MovedChangePoint:
            return who.about.front() + " before set-up " + who.about.back();
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
            return "set-up " + who.about.front() + ", " + who.about.back() + " axis";
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
            return "set-up " + who.about.front();
        case SuspectKind::Knocked:
        case SuspectKind::Settling:
        case SuspectKind::StaffSection:
            return "set-up " + who.about.front() + " from " + reading(who.about.back()) + " on";
        default:
            return reading(who.about.front()) +
                   (who.about.size() > 1 ? " and " + std::to_string(who.about.size() - 1) + " after it" : "");
    }
}

bool SuspectWords::alone(const Accused& who, const Model& model) const {
    const Reading* found = reading_of(who.about.front());
    if (found == nullptr) return false;
    const std::int32_t row = model.sights.row_of[static_cast<std::size_t>(found - book_.readings.data())];
    return row >= 0 && !(model.fit(static_cast<std::size_t>(row)).redundancy > 0);
}

std::string SuspectWords::what(const Accused& who) const {
    const std::string& first = who.about.front();
    const std::string& last = who.about.back();
    switch (who.kind) {
        case SuspectKind::Misread:
            return "the figure of " + where(who) + " is misread";
        case SuspectKind::DigitsSwapped:
            return "two digits of " + where(who) + " are exchanged";
        case SuspectKind::OffsetReversed:
            return "HIGH was taken for LOW at " + where(who);
        case SuspectKind::OffsetOmitted:
            return "what the receiver showed was left out of " + where(who);
        case SuspectKind::StaffInverted:
            return "the staff was the other way up at " + where(who);
        case SuspectKind::StaffSection:
            return "a section of the staff was not home in set-up " + first;
        case SuspectKind::WrongPoint:
            return "the staff stood on another point at " + where(who);
        case SuspectKind::WrongSetup:
            return where(who) + " was taken in another set-up";
        case SuspectKind::WrongBenchmark:
            return "the value of " + where(who) + " is wrong";
        case SuspectKind::MovedChangePoint:
            return first + " moved before set-up " + last;
        case SuspectKind::GradeLeftIn:
            return "a grade was left in on the " + last + " axis of set-up " + first;
        case SuspectKind::GradeReversed:
            return "the grade of the " + last + " axis of set-up " + first + " was set the wrong way";
        case SuspectKind::AxesSwapped:
            return "main and cross of set-up " + first + " were exchanged";
        case SuspectKind::AimOff:
            return "the axes of set-up " + first + " did not aim where the book says";
        case SuspectKind::Knocked:
            return "the laser or level of set-up " + first + " was knocked before " + reading(last);
        case SuspectKind::Settling:
            return "the tripod of set-up " + first + " was settling";
        case SuspectKind::InstrumentOut:
            return first + " is out of adjustment";
        case SuspectKind::WrongDistance:
            return "the chainage of " + where(who) + " is wrong";
        case SuspectKind::OtherBeam:
            return where(who) + (who.about.size() > 1 ? " were" : " was") + " taken on another beam";
    }
    return "";
}

std::string SuspectWords::elsewhere(const Accused& who, const std::vector<Accused>& alike) const {
    constexpr std::size_t most = 5;
    std::string text;
    std::size_t count = 0;
    for (const Accused& each : alike) {
        if (each.kind != who.kind) continue;
        if (++count <= most)
            text += (count > 1                          ? ", "
                     : who.kind == SuspectKind::Knocked ? "before reading "
                                                        : "at ") +
                    (who.kind == SuspectKind::Knocked ? each.about.back() : where(each));
    }
    return count > most ? text + " and " + std::to_string(count - most) + " more" : text;
}

std::string SuspectWords::slip(SuspectKind kind) const {
    switch (kind) {
        case SuspectKind::Misread:
            return "a figure misread, where something checks it";
        case SuspectKind::WrongBenchmark:
            return "a benchmark's value";
        case SuspectKind::MovedChangePoint:
            return "a change point moved";
        case SuspectKind::Knocked:
            return "a knock";
        case SuspectKind::GradeLeftIn:
            return "a grade left in";
        case SuspectKind::StaffSection:
            return "a section of the staff not home";
        default:
            return std::string(kind_word(kind));
    }
}

}  // namespace fallwright::record
