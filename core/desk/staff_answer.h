// staff_answer: the face of the staff around a reading, and how to read it.
#pragma once

#include <string>

#include "base/result.h"
#include "desk/options.h"

namespace fallwright {

struct StaffAnswer {
    Unit unit = Unit::Metre;
    double reading = 0;  // metres
    bool inverted = false;
    bool svg = false;
    std::string drawing, words;
    Findings findings;
};

Result<StaffAnswer> staff_picture(desk::Options& options);
std::string staff_json(const StaffAnswer& answer);

}  // namespace fallwright
