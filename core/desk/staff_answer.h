// staff_answer: the face of the staff around a reading, and how to read it.
#pragma once

#include <string>

#include "base/result.h"
#include "desk/options.h"

namespace fallwright {

// drawing: lines of text for a terminal, or an SVG document; words: one sentence that says how to read it.
struct StaffAnswer {
    Unit unit = Unit::Metre;
    double reading = 0;  // metres, 0 or more
    bool inverted = false;
    bool svg = false;
    std::string drawing, words;
    Findings findings;  // what is doubtful about the reading
};

// Options: reading (required; negative: inverted), unit, staff_length, window, inverted, style text or svg,
// ascii.
Result<StaffAnswer> staff_picture(desk::Options& options);
// The JSON of api/schema/v1/staff.schema.json.
std::string staff_json(const StaffAnswer& answer);

}  // namespace fallwright
