#include "staff/reduce.h"

#include <cmath>

namespace fallwright::staff {

namespace {

constexpr std::int64_t stadia_constant = 100;

}  // namespace

Decimal from_high(Decimal mark, Decimal high, bool inverted) {
    return inverted ? mark + high : mark - high;
}

Decimal from_low(Decimal mark, Decimal low, bool inverted) {
    return from_high(mark, -low, inverted);
}

Decimal from_offset(Decimal mark, Decimal offset) {
    return mark + offset;
}

Decimal mean_of_wires(Decimal top, Decimal middle, Decimal bottom) {
    return (top + middle + bottom).share(1, 3);
}

Decimal distance_of_wires(Decimal top, Decimal bottom) {
    const Decimal interval = top < bottom ? bottom - top : top - bottom;
    return interval.share(stadia_constant, 1);
}

Decimal as_booked(Decimal figure, bool inverted) {
    return inverted ? -figure : figure;
}

Decimal corrected(Decimal figure, Decimal shoe, const Corrections& corrections) {
    const double scaled = corrections.scale * static_cast<double>(figure.ticks());
    Decimal result = figure + shoe - corrections.zero - Decimal::ticks(std::llround(scaled));
    for (const JointStep& joint : corrections.joints) {
        if (figure > joint.at) result -= joint.step;
    }
    return result;
}

}  // namespace fallwright::staff
