// What is read on a staff, turned into the figure where the light or the line of sight cuts it. Exact: whole
// ticks of 1e-7 m throughout, but for the two lines that say so.
//
// Figures are what stands on the staff, 0 or more, counted from its foot; a staff held upside down (inverted,
// foot against a soffit) is told by `inverted`, not by the figure's sign. Booked, an inverted figure is
// negative: as_booked().
//
// Height of the point the foot stands on: plane - as_booked(corrected figure): below the plane upright, above
// it inverted.
#pragma once

#include <vector>

#include "base/decimal.h"

namespace fallwright::staff {

// The receiver's mark stands at `mark`; the receiver shows that it is `high` above the light, or `low` below
// it. Upwards is towards larger figures on an upright staff, towards smaller ones on an inverted one:
//   upright  mark - high, mark + low        inverted  mark + high, mark - low
// high, low: 0 or more. The result may be negative (beyond the foot), which plausibility reports.
Decimal from_high(Decimal mark, Decimal high, bool inverted);
Decimal from_low(Decimal mark, Decimal low, bool inverted);

// A figure of the receiver counted along the staff, + towards the larger figures, either way up.
Decimal from_offset(Decimal mark, Decimal offset);

// Three wires: the mean, rounded to a tick (half away from zero).
// Equal to middle + (upper interval - lower interval) / 3.
Decimal mean_of_wires(Decimal top, Decimal middle, Decimal bottom);

// The sight's length of three wires: 100 times the interval between the outer two, whichever way it runs.
// The 100 is the instrument's multiplying constant; instruments with another one book dist instead.
Decimal distance_of_wires(Decimal top, Decimal bottom);

// The figure with its sign as booked: negative where inverted.
Decimal as_booked(Decimal figure, bool inverted);

// A joint of the staff whose upper part stands off by `step` (+: figures above it read too large).
struct JointStep {
    Decimal at;
    Decimal step;
};

// What is known to be wrong with a staff.
struct Corrections {
    Decimal zero;      // + where figures are too large by as much everywhere (a worn foot)
    double scale = 0;  // figures too large by scale x figure
    std::vector<JointStep> joints;
};

// The figure with the shoe under the foot and the staff's errors taken off:
//   figure + shoe - zero - scale x figure - the steps of all joints below the figure (figure > at)
// scale x figure is rounded to a tick. `figure` is as read: scale and joints go by it, shoe or not.
Decimal corrected(Decimal figure, Decimal shoe, const Corrections& corrections);

}  // namespace fallwright::staff
