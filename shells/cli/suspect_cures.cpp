#include "shells/cli/suspect_cures.h"

#include <algorithm>
#include <cctype>

#include "base/print.h"

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

std::string SuspectCures::amend(const std::string& path, const std::string& of,
                                const std::string& set) const {
    return "fallwright add " + word(path) + " amend of=" + word(of) + " " + quoted("set={" + set + "}") +
           " why='...'";
}

// The field of an upright reading that was read off the staff; null where it is more than one.
const char* SuspectCures::field_of(const Reading& reading) {
    if (reading.figure.inverted) return nullptr;
    return reading.figure.form == Form::Staff  ? "staff"
           : reading.figure.form == Form::Mark ? "mark"
                                               : nullptr;
}

// A size that is one of a few leaves no doubt of the figure; a free one does, and the figure is read again.
std::string SuspectCures::read_again(const Reading& reading, const Suspect& suspect,
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

std::string SuspectCures::cure_of_reading(const Suspect& suspect, const std::string& path) const {
    const std::string& id = suspect.who.about.front();
    const Reading* found = words_.reading_of(id);
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

std::string SuspectCures::cure_of_setup(const Suspect& suspect, const std::string& path) const {
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

std::string SuspectCures::cure(const Suspect& suspect, const std::string& path) const {
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
