// fall_typed: the readings of a fall as a person typed them. Inside desk only.
#pragma once

#include <optional>
#include <vector>

#include "desk/fall_answer.h"

namespace fallwright {

// What was typed, in metres.
struct TypedFall {
    std::vector<double> staff, at;  // at: empty where no distance is given
    double over_sd = 0;
    std::optional<double> shown, near;
    Unit unit = Unit::Metre;
};

// Compares with what the instrument shows, which is given; fills answer.check and adds a finding where they
// disagree. The answer has its gradient, from two points or more.
void cross_check(const TypedFall& typed, FallAnswer& answer);

}  // namespace fallwright
