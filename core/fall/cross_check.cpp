#include "fall/cross_check.h"

#include <cassert>
#include <cmath>

namespace fallwright {

namespace {

constexpr double certainty_factor = 1.96;  // 95 %, two-sided
constexpr double least_gradient = 1e-7;    // under this it is level

}  // namespace

FallCheck check_fall(const FallCheckInput& input) {
    assert(input.distance > 0);
    const double difference = input.near_reading - input.far_reading;
    FallCheck check;
    check.gradient = difference / input.distance;
    check.disagreement = check.gradient - input.shown;
    check.sd = std::sqrt(input.gradient_sd * input.gradient_sd + input.shown_sd * input.shown_sd);
    check.agrees = std::fabs(check.disagreement) <= certainty_factor * check.sd;
    const bool level = std::fabs(input.shown) < least_gradient;
    check.distance_wanted = level ? NAN : difference / input.shown;
    check.difference_wanted = input.shown * input.distance;
    check.ahead_wanted = check.distance_wanted - input.distance;
    check.near_off = input.shown * check.ahead_wanted;
    return check;
}

double one_pass_mark(double near_reading, double far_reading, double distance, double ahead) {
    return far_reading - (far_reading - near_reading) * (distance + ahead) / distance;
}

double pivoted_gradient(double near_reading, double far_reading, double distance, double ahead) {
    return (near_reading - far_reading) / (distance + ahead);
}

}  // namespace fallwright
