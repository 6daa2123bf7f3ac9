// budget: where the uncertainty of a level comes from, cause by cause.
//
// The error of a sum c of levels is a sum of the errors of all observations, and these are independent, so
//   variance = sum over rows of (a_i . z)^2 / V_i + sum over priors of z_j^2 / p_j^2,   z = N^-1 c,
// with N the normal matrix: the same number that the solution has as the sum's variance. A row's V is its own
// noise and what only it carries (foot, direction); its share is split in that proportion. Each term belongs
// to one cause; the causes add up to the whole, which is tested.
//
// m^2. Limiting cases: a fixed benchmark has no uncertainty of its own, all parts 0; a sum that is not
// determined has no parts and must not be asked for. Cost: one solve over all columns and one pass over the
// rows.
// Source: propagation of variances in least squares, any textbook; nothing here is an estimate.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

#include "model/model.h"

namespace fallwright {

enum class BudgetPart : std::uint8_t {
    Reading,      // taking the figure off staff or receiver
    Foot,         // the staff's foot on its surface
    Instrument,   // tilt, cone or collimation that its adjustment, or the last check, left
    LevellingUp,  // tilt left when a set-up was levelled, or towards a point whose direction is unknown
    Grade,        // a grade set, shown or aimed
    Head,         // a head turned on its tripod
    Staff,        // zero, scale and joints of a staff
    Carried,      // steps carried by tape or spirit level
    Benchmark     // levels given with an uncertainty of their own
};
constexpr std::size_t cause_count = 9;

// Variances by cause.
using Budget = std::array<double, cause_count>;

// The book is the model's. The sum is determined: variance_of is not NaN.
Budget budget_of(const Book& book, const Model& model, std::span<const PointTerm> sum);

// As people say it: "reading", "staff's foot", ...
std::string_view cause_words(BudgetPart cause);

}  // namespace fallwright
