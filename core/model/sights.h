// sights: every reading that is evaluated, as the model sees it, and every set-up as its effects see it.
//
// Readings are left out here, with a finding, where a sloped plane meets an unknown place or an unknown
// bearing; notes say once what is assumed.
#pragma once

#include <vector>

#include "effect/checked.h"
#include "effect/curvature.h"
#include "model/points.h"
#include "staff/figures.h"
#include "where/where.h"

namespace fallwright {

struct SightRow {
    std::uint32_t reading = 0;  // index in Book::readings
    std::int32_t setup = 0;     // index in Book::setups
    std::int32_t point = 0;     // index in Points
    std::int32_t staff = -1;    // index in Book::staffs
    std::int32_t stretch = 0;   // of the instrument: how often it was adjusted before
    bool repeated = false;      // the point is read more than once in the set-up
    SightTerms terms;
    double upright =
        0;  // s (r + shoe) + down, metres: the staff's errors are effects (effect/staff_effects.h)
    double curvature = 0;  // (1-k) d^2/2R, metres
    double sd = 0;         // of the reading itself
    // Shared by the readings of one set-up and point, metres squared: how well the foot finds the surface,
    // and the tilt towards a point whose direction is unknown (0 where u and v are known).
    double foot_variance = 0, direction_variance = 0;
};

struct Sights {
    std::vector<InstrumentErrors> errors;  // per instrument
    CheckedInstruments checked;            // what checks on site say of them, by stretch
    std::vector<SetupTerms> setups;        // per set-up
    std::vector<SightRow> rows;            // in order of the book
    std::vector<std::int32_t> row_of;      // per reading; -1 where it is not evaluated
    std::vector<std::uint32_t> row_start;  // per set-up and one more: rows by set-up
    std::vector<std::uint32_t> by_setup;   // row indices
    Findings findings;

    // What checks say of an instrument in a stretch; null where none counts.
    const CheckedErrors* checked_in(std::size_t instrument, std::int32_t stretch) const {
        const auto found = checked.find({instrument, stretch});
        return found == checked.end() ? nullptr : &found->second;
    }
};

Sights prepare_sights(const Book& book, const Points& points, const Figures& figures, const Where& where,
                      CheckedInstruments checked = {});

}  // namespace fallwright
