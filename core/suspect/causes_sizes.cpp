// The sizes a cause may have (kinds and figures: docs/methods/error-or-blunder.md).
#include <cmath>
#include <utility>

#include "suspect/causes.h"

namespace fallwright {

namespace {

constexpr double radians_per_degree = 0.017453292519943295;
constexpr double usual_staff = 4;      // metres, where its length is not known
constexpr double usual_window = 0.03;  // metres, half range of a receiver
constexpr double root_three = 1.7320508075688772;
constexpr double milli = 1000;

// Digits d.ddd of a figure in the book's unit; a pair exchanged changes it by a multiple of 9.
void add_swaps(double figure, double per_unit, Sizes& sizes) {
    const auto thousandths = static_cast<std::int64_t>(std::llround(figure / per_unit * milli));
    std::int64_t place = 1;
    for (int pair = 0; pair < 3; ++pair, place *= 10) {
        const std::int64_t low = thousandths / place % 10, high = thousandths / (place * 10) % 10;
        if (low == high) continue;
        sizes.known(1.0 / 3, static_cast<double>(9 * (high - low) * place) * per_unit / milli);
    }
}

// Shares of a misread figure: a block of a metre, a decimetre, a centimetre, half a decimetre, or any.
void add_misreads(double per_unit, Sizes& sizes) {
    constexpr double all = 0.044;
    for (const auto& [share, size] : {std::pair(0.010, 1.0), {0.012, 0.1}, {0.012, 0.01}, {0.004, 0.05}}) {
        sizes.known(share / all / 2, size * per_unit);
        sizes.known(share / all / 2, -size * per_unit);
    }
    sizes.free(0.006 / all, 0.3);
}

// Digits of a benchmark's value, or any error of it; all of one source are out by anything.
void add_benchmark_errors(bool one_alone, double per_unit, Sizes& sizes) {
    for (const double size : {1.0, 0.1, 0.01}) {
        if (!one_alone) break;
        sizes.known(1.0 / 12, size * per_unit);
        sizes.known(1.0 / 12, -size * per_unit);
    }
    sizes.free(one_alone ? 0.5 : 1, 0.1);
}

// Tape lengths and peg intervals.
void add_distances(double per_unit, Sizes& sizes) {
    for (const double size : {1.0, 5.0, 10.0, 20.0, 30.0}) {
        sizes.known(0.1, size * per_unit);
        sizes.known(0.1, -size * per_unit);
    }
}

}  // namespace

double Causes::window_of(const Cause& cause) const {
    const Reading& booked = reading(cause.row);
    const NameId receiver = booked.receiver != no_name
                                ? booked.receiver
                                : book_.setups[static_cast<std::size_t>(cause.setup)].receiver;
    const std::int32_t which = receivers_(receiver);
    if (which < 0) return usual_window;
    return book_.receivers[static_cast<std::size_t>(which)].window.or_else(usual_window);
}

// Of one reading.
void Causes::add_sizes_of_reading(const Cause& cause, Sizes& sizes) const {
    const double unit = book_.metres_per_unit();
    const SightRow& row = sight(cause.row);
    switch (cause.kind) {
        case SuspectKind::Misread:
            return add_misreads(unit, sizes);
        case SuspectKind::DigitsSwapped:
            return add_swaps(reading(cause.row).figure.a.metres(), unit, sizes);
        case SuspectKind::OffsetReversed:
            return sizes.known(1, 2 * offset_in(cause.row));
        case SuspectKind::OffsetOmitted:
            return sizes.free(1, window_of(cause) / root_three);
        case SuspectKind::StaffInverted: {
            const bool known = row.staff >= 0;
            const double length =
                known ? book_.staffs[static_cast<std::size_t>(row.staff)].length.or_else(usual_staff)
                      : usual_staff;
            sizes.known(0.5, 2 * row.terms.r - length);
            return sizes.known(0.5, 2 * row.terms.r);
        }
        case SuspectKind::WrongDistance:
            return add_distances(unit, sizes);
        case SuspectKind::OtherBeam:
            return sizes.free(1, 1);
        default:
            return;  // another assignment of the reading
    }
}

Sizes Causes::sizes(const Cause& cause) const {
    Sizes sizes;
    switch (cause.kind) {
        case SuspectKind::StaffSection:
            sizes.free(1, 0.05);
            break;
        case SuspectKind::WrongBenchmark:
            add_benchmark_errors(cause.source == no_name, book_.metres_per_unit(), sizes);
            break;
        case SuspectKind::MovedChangePoint:
        case SuspectKind::Knocked:
            sizes.free(1, 0.02);
            break;
        case SuspectKind::GradeLeftIn:
            sizes.free(1, 0.005);
            break;
        case SuspectKind::GradeReversed:
            sizes.known(1, -2 * dialled(cause.setup)[static_cast<std::size_t>(cause.axis)]);
            break;
        case SuspectKind::AxesSwapped:
            sizes.known(1, dialled(cause.setup)[1] - dialled(cause.setup)[0]);
            break;
        case SuspectKind::AimOff:
            if (cause.half_round) {
                sizes.known(1, -2);
            } else {
                sizes.free(1, 5 * radians_per_degree);
            }
            break;
        case SuspectKind::Settling:
            sizes.free(1, 0.0002);
            break;
        case SuspectKind::InstrumentOut:
            break;  // several columns at once
        default:
            add_sizes_of_reading(cause, sizes);
    }
    return sizes;
}

}  // namespace fallwright
