// errors: the error figures of one instrument, given or assumed, in the units of the model.
//
// Every figure not given takes the default of its type (preset/error_figures.h); a figure given as 0 switches
// its effect off. Lengths in metres, tilt, cone, collimation and grades length per length, aim in radians.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "book/entry.h"

namespace fallwright {

struct InstrumentErrors {
    double reading_sd = 0, sd_per_m = 0;
    std::array<double, 2> tilt{0, 0};  // main, cross: known by a check
    double tilt_sd = 0, setting_tilt_sd = 0;
    double cone = 0, cone_sd = 0;
    double collimation = 0, collimation_sd = 0;
    double aim_sd = 0;  // radians
    double grade_sd = 0, grade_gain_sd = 0, grade_step = 0;
    std::vector<std::string> assumed;  // names of the fields that took a default other than 0

    // Of a body whose axes are not known: its tilt and that of this levelling-up together.
    double own_tilt_sd() const;
};

InstrumentErrors errors_of(const Instrument& instrument);

}  // namespace fallwright
