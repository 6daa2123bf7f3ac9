// figures: what the staff shows for every reading of a book, and which readings cannot be so.
//
// upright staff = mark - high, or mark + low; inverted = mark + high, or mark - low; an offset is + towards
// the larger figures; with a clamp the mark is the set-up's; of three wires the mean. Figures are positive;
// the shoe is not in them. A figure beyond the staff (10 m where its length is not known) is left out with a
// finding; what is merely doubtful is reported and kept. Exact in ticks of 1e-7 m (the mean of three wires
// rounded to one).
#pragma once

#include <vector>

#include "base/finding.h"
#include "book/book.h"

namespace fallwright {

struct Figures {
    std::vector<Decimal> value;  // per reading; 0 where planned
    std::vector<bool> usable;    // per reading; planned readings are not
    // Per reading, how far its point lies below where the staff stood (a pipe's invert below its crown);
    // empty where none stood anywhere else (take_down of design/design.h).
    std::vector<Decimal> down;

    // What the reading says of its point, in the sense of an upright staff: the figure with the shoe,
    // negative where inverted, and down to the point. What a level book would have if the staff had stood
    // there.
    Decimal upright(const Reading& reading, std::size_t index) const {
        const Decimal figure = value[index] + Decimal::metres(reading.shoe);
        const Decimal sight = reading.figure.inverted ? -figure : figure;
        return down.empty() ? sight : sight + down[index];
    }
    Findings findings;
};

Figures read_figures(const Book& book);

// One value as booked: the figure on the staff. mark: where the receiver's mark stands (the figure's own, or
// the clamp).
Decimal figure_on_staff(const Figure& read, Decimal mark);

// What cannot be so, or is doubtful, of a figure read without a set-up (a shot of a check), on a staff and a
// receiver that are not known; `about` is left empty. Errors mean that it is to be left out.
Findings judge_shot(const Figure& read, Unit unit, const Maybe& reading_sd);

// Index in Book::staffs of the staff a reading was taken on (its own, else its set-up's); -1 where none is
// named.
std::int32_t staff_of(const Book& book, const Reading& reading, const ByName& staffs);

}  // namespace fallwright
