#include "suspect/words.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr std::array<std::string_view, 2> axis_words = {"main", "cross"};

class Sentence {
  public:
    Sentence(const Causes& causes, const Cause& cause)
        : causes_(causes), book_(causes.book()), cause_(cause) {}

    // "14.4 mm", or feet to a thousandth.
    std::string length(double metres) const {
        constexpr double millimetres = 1000;
        if (book_.unit == Unit::Foot) return trimmed(book_.in_unit(std::fabs(metres)), 3) + " ft";
        return trimmed(std::fabs(metres) * millimetres, 1) + " mm";
    }
    std::string with_sd(double metres, double sd) const {
        return sd > 0 ? length(metres) + " \u00b1 " + length(sd) : length(metres);
    }
    static std::string gradient(double g) {
        constexpr double percent = 100;
        return trimmed(g * percent, 4) + " %";
    }
    std::string reading() const { return book_.id_of(causes_.reading(cause_.row).entry); }
    std::string setup() const {
        return book_.name(book_.setups[static_cast<std::size_t>(cause_.setup)].name);
    }
    std::string point(std::int32_t index) const {
        return book_.name(causes_.model().points.name(static_cast<std::size_t>(index)));
    }
    std::string read_point() const { return point(causes_.sight(cause_.row).point); }
    std::string instrument() const {
        return book_.name(book_.instruments[static_cast<std::size_t>(cause_.other)].name);
    }
    std::string axis() const { return std::string(axis_words[static_cast<std::size_t>(cause_.axis)]); }
    std::string booked(double size, double sd) const {
        return "booked " + with_sd(size, sd) + (size < 0 ? " too small" : " too large");
    }

    std::string of_reading(double size, double sd) const {
        const std::string start = "reading " + reading() + " on " + read_point() + ": ";
        switch (cause_.kind) {
            case SuspectKind::Misread:
                return start + booked(size, sd);
            case SuspectKind::DigitsSwapped:
                return start + "two digits exchanged, " + booked(size, 0);
            case SuspectKind::OffsetReversed:
                return start + "HIGH taken for LOW, " + booked(size, 0);
            case SuspectKind::OffsetOmitted:
                return start + "what the receiver showed left out, " + booked(size, sd);
            case SuspectKind::StaffInverted:
                return start + "staff the other way up, " + booked(size, 0);
            case SuspectKind::WrongPoint:
                return start + "the staff stood on " + point(cause_.point);
            case SuspectKind::WrongSetup:
                return start + "taken in set-up " +
                       book_.name(book_.setups[static_cast<std::size_t>(cause_.other)].name);
            case SuspectKind::WrongDistance:
                return start + "the staff stood " + metres(size) + " off its chainage";
            default:
                return start +
                       (cause_.count > 1 ? "and the " + std::to_string(cause_.count - 1) + " after it, "
                                         : std::string()) +
                       "taken on another light, " + booked(size, sd);
        }
    }
    std::string metres(double size) const {
        return trimmed(book_.in_unit(std::fabs(size)), 2) + (book_.unit == Unit::Foot ? " ft" : " m");
    }

    std::string of_setup(double size, double sd) const {
        const std::string start = "set-up " + setup() + ": ";
        switch (cause_.kind) {
            case SuspectKind::StaffSection:
                return start + "a section of the staff not home above " + metres(cause_.joint) + ", " +
                       booked(size, sd);
            case SuspectKind::MovedChangePoint:
                return point(cause_.point) + (size < 0 ? " sank" : " rose") + " by " + with_sd(size, sd) +
                       " before set-up " + setup();
            case SuspectKind::GradeLeftIn:
                return start + "the light has " + gradient(size) + " \u00b1 " + gradient(sd) + " on the " +
                       axis() + " axis that the book does not say";
            case SuspectKind::GradeReversed:
                return start + "the grade of the " + axis() + " axis set the wrong way";
            case SuspectKind::AxesSwapped:
                return start + "main and cross exchanged";
            case SuspectKind::AimOff:
                return start + (cause_.half_round ? "the body stood half round"
                                                  : "the main axis " + trimmed(size * degrees, 2) +
                                                        " degrees off where it should aim");
            case SuspectKind::Knocked:
                return start + "knocked before reading " + reading() + ", the light " +
                       (size < 0 ? "lower" : "higher") + " by " + with_sd(size, sd) + " since";
            default:
                return start + "the tripod " + (size < 0 ? "sinks" : "rises") + " by " + length(size) +
                       " a minute";
        }
    }

    std::string of_source(double size, double sd) const {
        if (cause_.source != no_name)
            return "the benchmarks from " + book_.name(cause_.source) + ": value " + with_sd(size, sd) +
                   (size < 0 ? " too low" : " too high");
        return "benchmark " + point(cause_.point) + ": value " + with_sd(size, sd) +
               (size < 0 ? " too low" : " too high");
    }

    std::string of_instrument(double size, std::size_t which) const {
        constexpr double thirty_metres = 30;
        using What = Causes::InstrumentColumn::What;
        const What of = causes_.instrument_columns(cause_)[which].what;
        const std::string what = of == What::Collimation ? "collimation"
                                 : of == What::Cone      ? "cone"
                                 : of == What::MainTilt  ? "tilt of the main axis"
                                                         : "tilt of the cross axis";
        return "instrument " + instrument() + " out: " + what + " " + length(size * thirty_metres) +
               " at 30 m";
    }

  private:
    static constexpr double degrees = 57.29577951308232;
    const Causes& causes_;
    const Book& book_;
    const Cause& cause_;
};

}  // namespace

std::vector<std::string> about_of(const Causes& causes, const Cause& cause) {
    const Sentence say(causes, cause);
    switch (cause.kind) {
        case SuspectKind::WrongBenchmark: {
            if (cause.source == no_name) return {say.point(cause.point)};
            std::vector<std::string> all;
            for (const Benchmark& benchmark : causes.book().benchmarks) {
                if (benchmark.source == cause.source) all.push_back(causes.book().name(benchmark.point));
            }
            return all;
        }
        case SuspectKind::MovedChangePoint:
            return {say.point(cause.point), say.setup()};
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
            return {say.setup(), say.axis()};
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
            return {say.setup()};
        case SuspectKind::StaffSection:
        case SuspectKind::Knocked:
        case SuspectKind::Settling:
            return {say.setup(), say.reading()};
        case SuspectKind::InstrumentOut:
            return {say.instrument()};
        default: {
            std::vector<std::string> all;
            for (const std::uint32_t row : causes.from_here(cause).first(cause.count))
                all.push_back(causes.book().id_of(causes.reading(static_cast<std::int32_t>(row)).entry));
            return all;
        }
    }
}

std::string sentence_of(const Causes& causes, const Cause& cause, double size, double sd, std::size_t which) {
    const Sentence say(causes, cause);
    switch (cause.kind) {
        case SuspectKind::WrongBenchmark:
            return say.of_source(size, sd);
        case SuspectKind::InstrumentOut:
            return say.of_instrument(size, which);
        case SuspectKind::StaffSection:
        case SuspectKind::MovedChangePoint:
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
        case SuspectKind::Knocked:
        case SuspectKind::Settling:
            return say.of_setup(size, sd);
        default:
            return say.of_reading(size, sd);
    }
}

std::string redo_of(const Causes& causes, const Cause& cause) {
    const Sentence say(causes, cause);
    switch (cause.kind) {
        case SuspectKind::WrongBenchmark:
            if (cause.source != no_name)
                return "tie in to a benchmark of another source, or have the values from " +
                       causes.book().name(cause.source) + " confirmed";
            return "tie in to a third benchmark, or have the value of " +
                   say.point(std::max(cause.point, 0)) + " confirmed by whoever gave it";
        case SuspectKind::InstrumentOut:
            return "check the instrument before it is used again";
        case SuspectKind::MovedChangePoint:
            return "level again from the last point that was read before set-up " + say.setup() +
                   ", over a firm change point";
        default:
            return cause.setup < 0 ? "level this part again"
                                   : "set up again and read the points of set-up " + say.setup() + " anew";
    }
}

bool size_is_length(SuspectKind kind) {
    return kind != SuspectKind::GradeLeftIn && kind != SuspectKind::GradeReversed &&
           kind != SuspectKind::AxesSwapped && kind != SuspectKind::AimOff &&
           kind != SuspectKind::InstrumentOut;
}

}  // namespace fallwright
