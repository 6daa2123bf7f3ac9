#include "staff/figures.h"

#include <optional>
#include <utility>

#include "staff/plausibility.h"
#include "staff/reduce.h"

namespace fallwright {

namespace {

staff::AsRead as_read(const Figure& read, Decimal mark, Unit unit) {
    staff::AsRead as;
    as.unit = unit;
    as.inverted = read.inverted;
    if (read.form == Form::Staff) as.staff = read.a;
    if (read.form == Form::ThreeWires) {
        as.top = read.a;
        as.staff = read.b;
        as.bottom = read.c;
    }
    if (read.form == Form::Mark || read.form == Form::Clamp) {
        as.mark = mark;
        (read.deviation == Deviation::High  ? as.high
         : read.deviation == Deviation::Low ? as.low
                                            : as.offset) = read.b;
    }
    return as;
}

class FigureReader {
  public:
    explicit FigureReader(const Book& book) : book_(book), staffs_(book.staffs), receivers_(book.receivers) {}

    Figures run() {
        figures_.value.resize(book_.readings.size());
        figures_.usable.resize(book_.readings.size());
        for (std::size_t i = 0; i < book_.readings.size(); ++i) {
            const Reading& reading = book_.readings[i];
            if (reading.planned || reading.figure.form == Form::None) continue;
            figures_.value[i] = figure_on_staff(reading.figure, mark_of(reading));
            figures_.usable[i] = judge(reading);
        }
        return std::move(figures_);
    }

  private:
    // Staff and receiver are those of the tripod's set-up.
    const Setup& tripod(const Reading& reading) const {
        return book_.setups[tripod_of(book_, static_cast<std::size_t>(reading.setup_at))];
    }

    const Setup& setup_of(const Reading& reading) const {
        return book_.setups[static_cast<std::size_t>(reading.setup_at)];
    }

    Decimal mark_of(const Reading& reading) const {
        return reading.figure.form == Form::Clamp ? Decimal::metres(setup_of(reading).clamp.value)
                                                  : reading.figure.a;
    }

    // What is known of the staff and the receiver it was read with.
    staff::Kit kit_of(const Reading& reading) const {
        staff::Kit kit;
        const auto decimal = [](const Maybe& given) {
            return given.has() ? std::optional<Decimal>(Decimal::metres(given.value)) : std::nullopt;
        };
        const std::int32_t staff_at = staff_of(book_, reading, staffs_);
        if (staff_at >= 0) {
            const Staff& on = book_.staffs[static_cast<std::size_t>(staff_at)];
            kit.length = decimal(on.length);
            kit.least_step = decimal(on.least_step);
        }
        if (reading.least_step.has()) kit.least_step = decimal(reading.least_step);
        const NameId receiver = reading.receiver != no_name ? reading.receiver : tripod(reading).receiver;
        const std::int32_t receiver_at = receiver == no_name ? -1 : receivers_(receiver);
        if (receiver_at >= 0)
            kit.window = decimal(book_.receivers[static_cast<std::size_t>(receiver_at)].window);
        const Maybe& sd =
            book_.instruments[static_cast<std::size_t>(setup_of(reading).instrument_at)].reading_sd;
        kit.reading_sd = sd.or_else(kit.reading_sd);
        return kit;
    }

    bool judge(const Reading& reading) {
        Findings found = staff::judge(as_read(reading.figure, mark_of(reading), book_.unit), kit_of(reading));
        bool usable = true;
        for (Finding& each : found) {
            each.about = {book_.id_of(reading.entry), book_.name(reading.point)};
            usable = usable && catalogue(each.code).severity != Severity::Error;
            figures_.findings.push_back(std::move(each));
        }
        return usable;
    }

    const Book& book_;
    ByName staffs_, receivers_;
    Figures figures_;
};

}  // namespace

Decimal figure_on_staff(const Figure& read, Decimal mark) {
    switch (read.form) {
        case Form::None:
        case Form::Staff:
            return read.a;
        case Form::ThreeWires:
            return staff::mean_of_wires(read.a, read.b, read.c);
        case Form::Mark:
        case Form::Clamp:
            break;
    }
    switch (read.deviation) {
        case Deviation::High:
            return staff::from_high(mark, read.b, read.inverted);
        case Deviation::Low:
            return staff::from_low(mark, read.b, read.inverted);
        case Deviation::Offset:
            break;
    }
    return staff::from_offset(mark, read.b);
}

Findings judge_shot(const Figure& read, Unit unit, const Maybe& reading_sd) {
    staff::Kit kit;
    kit.reading_sd = reading_sd.or_else(kit.reading_sd);
    return staff::judge(as_read(read, read.a, unit), kit);
}

std::int32_t staff_of(const Book& book, const Reading& reading, const ByName& staffs) {
    const NameId own = reading.staff;
    const NameId name =
        own != no_name ? own : book.setups[tripod_of(book, static_cast<std::size_t>(reading.setup_at))].staff;
    return name == no_name ? -1 : staffs(name);
}

Figures read_figures(const Book& book) {
    return FigureReader(book).run();
}

}  // namespace fallwright
