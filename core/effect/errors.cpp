#include "effect/errors.h"

#include <cmath>

#include "preset/error_figures.h"

namespace fallwright {

namespace {

constexpr double radians_per_degree = 0.017453292519943295;

// The figure given, or the default with its name noted.
double given_or(const Maybe& given, double fallback, const char* name, InstrumentErrors& to) {
    if (given.has()) return given.value;
    if (fallback != 0) to.assumed.emplace_back(name);
    return fallback;
}

}  // namespace

double InstrumentErrors::own_tilt_sd() const {
    return std::sqrt(tilt_sd * tilt_sd + setting_tilt_sd * setting_tilt_sd);
}

InstrumentErrors errors_of(const Instrument& instrument) {
    const preset::ErrorFigures& usual = instrument.type == InstrumentType::OpticalLevel
                                            ? preset::assumed_optical_level
                                            : preset::assumed_rotating_laser;
    InstrumentErrors errors;
    errors.reading_sd = given_or(instrument.reading_sd, usual.reading_sd, "reading_sd", errors);
    errors.sd_per_m = given_or(instrument.sd_per_m, usual.sd_per_m, "sd_per_m", errors);
    errors.tilt = instrument.tilt;
    errors.tilt_sd = given_or(instrument.tilt_sd, usual.tilt_sd, "tilt_sd", errors);
    errors.setting_tilt_sd =
        given_or(instrument.setting_tilt_sd, usual.setting_tilt_sd, "setting_tilt_sd", errors);
    errors.cone = instrument.cone;
    errors.cone_sd = given_or(instrument.cone_sd, usual.cone_sd, "cone_sd", errors);
    errors.collimation = instrument.collimation;
    errors.collimation_sd =
        given_or(instrument.collimation_sd, usual.collimation_sd, "collimation_sd", errors);
    errors.aim_sd = radians_per_degree * given_or(instrument.aim_sd, usual.aim_sd, "aim_sd", errors);
    errors.grade_sd = given_or(instrument.grade_sd, usual.grade_sd, "grade_sd", errors);
    errors.grade_gain_sd = instrument.grade_gain_sd;
    errors.grade_step = instrument.grade_step;
    return errors;
}

}  // namespace fallwright
