#include "shells/cli/suspect_words.h"

#include <algorithm>
#include <cctype>

#include "base/print.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr int figure_places = 3;

std::string quoted(const std::string& text) {
    std::string all = "'";
    for (const char c : text) all += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return all + "'";
}

bool plain(const std::string& text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](unsigned char c) {
        return std::isalnum(c) || c == '-' || c == '_' || c == '.' || c == '/';
    });
}

std::string word(const std::string& text) {
    return plain(text) ? text : quoted(text);
}

std::string strike(const std::string& path, const std::string& of) {
    return "fallwright add " + word(path) + " strike of=" + word(of) + " why='...'";
}

}  // namespace

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

std::string SuspectWords::amend(const std::string& path, const std::string& of,
                                const std::string& set) const {
    return "fallwright add " + word(path) + " amend of=" + word(of) + " " + quoted("set={" + set + "}") +
           " why='...'";
}

// The field of an upright reading that was read off the staff; null where it is more than one.
const char* SuspectWords::field_of(const Reading& reading) {
    if (reading.figure.inverted) return nullptr;
    return reading.figure.form == Form::Staff  ? "staff"
           : reading.figure.form == Form::Mark ? "mark"
                                               : nullptr;
}

// A size that is one of a few leaves no doubt of the figure; a free one does, and the figure is read again.
std::string SuspectWords::read_again(const Reading& reading, const Suspect& suspect,
                                     const std::string& path) const {
    const std::string& id = suspect.who.about.front();
    const char* field = field_of(reading);
    if (field == nullptr) return "read it again, then " + strike(path, id);
    const double figure = reading.figure.a.metres() - suspect.size;
    const bool sure = suspect.size_sd == 0 && suspect.who.kind != SuspectKind::StaffInverted && figure > 0;
    const std::string value =
        sure ? trimmed(book_.in_unit(figure), figure_places) : std::string("the figure read again");
    return amend(path, id, "\"" + std::string(field) + "\":" + value);
}

std::string SuspectWords::cure_of_reading(const Suspect& suspect, const std::string& path) const {
    const std::string& id = suspect.who.about.front();
    const Reading* found = reading_of(id);
    if (found == nullptr) return "";
    const std::string shown = trimmed(book_.in_unit(found->figure.b.metres()), figure_places);
    switch (suspect.who.kind) {
        case SuspectKind::WrongPoint:
            return amend(path, id, R"("point":"the point it stood on")");
        case SuspectKind::WrongSetup:
            return amend(path, id, R"("setup":"the set-up it was taken in")");
        case SuspectKind::WrongDistance:
            return amend(path, id, R"("ch":the chainage it stood at)");
        case SuspectKind::OtherBeam:
            return "read it again, then " + strike(path, id);
        case SuspectKind::OffsetReversed:
            if (found->figure.deviation == Deviation::Offset)
                return amend(
                    path, id,
                    "\"offset\":" + trimmed(-book_.in_unit(found->figure.b.metres()), figure_places));
            return amend(path, id,
                         found->figure.deviation == Deviation::High ? "\"high\":null,\"low\":" + shown
                                                                    : "\"low\":null,\"high\":" + shown);
        case SuspectKind::OffsetOmitted:
            return amend(path, id, R"("high or low":what the receiver showed)");
        default:
            break;
    }
    return read_again(*found, suspect, path);
}

std::string SuspectWords::cure_of_setup(const Suspect& suspect, const std::string& path) const {
    const std::string& first = suspect.who.about.front();
    const std::string& last = suspect.who.about.back();
    const auto found = std::find_if(book_.setups.begin(), book_.setups.end(),
                                    [&](const Setup& setup) { return book_.name(setup.name) == first; });
    const std::string of = found == book_.setups.end() ? first : book_.id_of(found->entry);
    switch (suspect.who.kind) {
        case SuspectKind::Knocked:
            return "enter a second set-up like " + first + " and give it the readings from " + last +
                   " on: " + amend(path, last, "\"setup\":\"" + first + " after\"") + ", and so on";
        case SuspectKind::Settling:
            return "set up on firm ground, read the points again, and strike the readings of set-up " + first;
        case SuspectKind::StaffSection:
            return "read the points again with the staff locked, and strike the readings above its joint in "
                   "set-up " +
                   first;
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
            return "look at the display, then " +
                   amend(path, of, "\"plane\":{... \"" + last + "\":what it shows}");
        case SuspectKind::AxesSwapped:
            return amend(path, of, R"("plane":{... main and cross exchanged})");
        default:
            return amend(path, of, R"("plane":{... "bearing":where the main axis aims})");
    }
}

std::string SuspectWords::cure(const Suspect& suspect, const std::string& path) const {
    const std::string& first = suspect.who.about.front();
    const std::string& last = suspect.who.about.back();
    switch (suspect.who.kind) {
        case SuspectKind::WrongBenchmark: {
            const auto found = std::find_if(
                book_.benchmarks.begin(), book_.benchmarks.end(),
                [&](const Benchmark& benchmark) { return book_.name(benchmark.point) == first; });
            return "have the value confirmed, then " +
                   amend(path, book_.id_of(found->entry), "\"level\":the value confirmed");
        }
        case SuspectKind::MovedChangePoint:
            return "give " + first + " a new name in set-up " + last +
                   " and after it: in each reading of it there " +
                   amend(path, "ID", "\"point\":\"" + first + " after\"");
        case SuspectKind::InstrumentOut:
            return "check the instrument and enter the check as a trial; readings after it carry its outcome";
        case SuspectKind::StaffSection:
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
        case SuspectKind::Knocked:
        case SuspectKind::Settling:
            return cure_of_setup(suspect, path);
        default:
            return cure_of_reading(suspect, path);
    }
}

}  // namespace fallwright::cli
