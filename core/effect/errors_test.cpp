#include "effect/errors.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "preset/error_figures.h"

namespace fallwright {

namespace {

using Fields = std::vector<std::string>;

}  // namespace

// Contract section 1, defaults.
TEST(Errors, OfALaserThatGivesNone) {
    const InstrumentErrors errors = errors_of({});
    EXPECT_EQ(errors.reading_sd, 0.0012);
    EXPECT_EQ(errors.sd_per_m, 0);
    EXPECT_EQ(errors.tilt_sd, 2e-5);
    EXPECT_EQ(errors.setting_tilt_sd, 1.3e-5);
    EXPECT_EQ(errors.cone_sd, 2e-5);
    EXPECT_EQ(errors.collimation_sd, 0);
    EXPECT_DOUBLE_EQ(errors.aim_sd, 0.5 * std::acos(-1.0) / 180);
    EXPECT_EQ(errors.grade_sd, 3e-5);
    EXPECT_EQ(errors.assumed,
              (Fields{"reading_sd", "tilt_sd", "setting_tilt_sd", "cone_sd", "aim_sd", "grade_sd"}));
    Instrument pipe;
    pipe.type = InstrumentType::PipeLaser;
    EXPECT_EQ(errors_of(pipe).assumed, errors.assumed);
}

TEST(Errors, OfAnOpticalLevelThatGivesNone) {
    Instrument level;
    level.type = InstrumentType::OpticalLevel;
    const InstrumentErrors errors = errors_of(level);
    EXPECT_EQ(errors.reading_sd, 0.0008);
    EXPECT_EQ(errors.sd_per_m, 1.2e-5);
    EXPECT_EQ(errors.collimation_sd, 5e-5);
    EXPECT_EQ(errors.tilt_sd + errors.setting_tilt_sd + errors.cone_sd + errors.aim_sd + errors.grade_sd, 0);
    EXPECT_EQ(errors.assumed, (Fields{"reading_sd", "sd_per_m", "collimation_sd"}));
}

TEST(Errors, WhatIsGivenIsNotAssumedNeitherIsNothing) {
    Instrument laser;
    laser.reading_sd = {0.001};
    laser.tilt_sd = {0};
    laser.aim_sd = {180};
    laser.tilt = {1e-5, 2e-5};
    laser.cone = 3e-5;
    laser.grade_gain_sd = 0.002;
    laser.grade_step = 0.0001;
    const InstrumentErrors errors = errors_of(laser);
    EXPECT_EQ(errors.reading_sd, 0.001);
    EXPECT_EQ(errors.tilt_sd, 0);
    EXPECT_DOUBLE_EQ(errors.aim_sd, std::acos(-1.0));
    EXPECT_EQ(errors.tilt[1], 2e-5);
    EXPECT_EQ(errors.cone, 3e-5);
    EXPECT_EQ(errors.grade_gain_sd, 0.002);
    EXPECT_EQ(errors.grade_step, 0.0001);
    EXPECT_EQ(errors.assumed, (Fields{"setting_tilt_sd", "cone_sd", "grade_sd"}));
}

TEST(Errors, TiltOfABodyWhoseAxesAreNotKnownIsBothTogether) {
    InstrumentErrors errors;
    errors.tilt_sd = 3;
    errors.setting_tilt_sd = 4;
    EXPECT_DOUBLE_EQ(errors.own_tilt_sd(), 5);
}

}  // namespace fallwright
