#include "suspect/mixture.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {

namespace {

TEST(Mixture, ExplanationsThatExpectTheSameTellNothing) {
    EXPECT_NEAR(mutual_information({{0.5, 1.4, 4e-6}, {0.5, 1.4, 4e-6}}), 0, 1e-6);
}

TEST(Mixture, ExplanationsFarApartTellAllThereIsToKnow) {
    const double entropy = -(0.3 * std::log(0.3) + 0.7 * std::log(0.7));
    EXPECT_NEAR(mutual_information({{0.3, 1.4, 4e-6}, {0.7, 9.4, 4e-6}}), entropy, 1e-6);
}

// Two equal members two standard deviations apart: 0.336831 nat by SciPy's quad.
TEST(Mixture, HalfWayIsWhatQuadratureSays) {
    EXPECT_NEAR(mutual_information({{0.5, 0, 1}, {0.5, 2, 1}}), 0.336830820, 1e-6);
}

}  // namespace

}  // namespace fallwright
