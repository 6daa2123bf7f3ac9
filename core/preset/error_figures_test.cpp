#include "preset/error_figures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright::preset {

// Parts of a reading on a hard mark, common practice, no source: dead band +-1 mm (uniform), rounding to a
// millimetre (uniform), plumb 0.6 mm, foot 0.8 mm.
TEST(ErrorFigures, ReadingOfALaserIsTheSumOfItsParts) {
    const double band = 1.0 / std::sqrt(3.0);
    const double rounding = 1.0 / std::sqrt(12.0);
    const double sum = std::sqrt(band * band + rounding * rounding + 0.6 * 0.6 + 0.8 * 0.8);
    EXPECT_NEAR(assumed_rotating_laser.reading_sd * 1000, sum, 0.05);
}

// Half of 10 seconds of arc as one standard deviation for the lasting and the new part of the tilt together:
// common practice, no source.
TEST(ErrorFigures, TiltOfALaserIsHalfOfTenSeconds) {
    const double both =
        std::sqrt(assumed_rotating_laser.tilt_sd * assumed_rotating_laser.tilt_sd +
                  assumed_rotating_laser.setting_tilt_sd * assumed_rotating_laser.setting_tilt_sd);
    EXPECT_NEAR(both, 5.0 / 206264.806, 0.05e-5);
}

TEST(ErrorFigures, FootGoesByWhatItStandsOn) {
    EXPECT_EQ(assumed_foot_sd("", false), 0.0003);
    for (const char* what :
         {"laid", "laid in", "laid out", "finished", "invert", "soffit", "crown", "peg", "kerb"}) {
        EXPECT_EQ(assumed_foot_sd(what, false), 0.001) << what;
    }
    EXPECT_EQ(assumed_foot_sd("bed", false), 0.003);
    EXPECT_EQ(assumed_foot_sd("formation", false), 0.005);
    EXPECT_EQ(assumed_foot_sd("sub-base", true), 0.005);
    EXPECT_EQ(assumed_foot_sd("sub-base", false), 0.010);
    EXPECT_EQ(assumed_foot_sd("ground", false), 0.010);
}

TEST(ErrorFigures, FinishedIsBuiltAlsoWhereItIsALayer) {
    EXPECT_EQ(assumed_foot_sd("finished", true), 0.001);
}

}  // namespace fallwright::preset
