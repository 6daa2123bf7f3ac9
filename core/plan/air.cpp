#include "plan/air.h"

#include <cmath>

namespace fallwright {

namespace {

constexpr double earth_radius = 6371000;
constexpr double usual_k = 0.13;
constexpr double pressure = 1013.25;    // hPa
constexpr double temperature = 293.15;  // kelvin
constexpr double hot_ground = -0.5;     // kelvin a metre upward
constexpr double minutes_per_degree = 2;

}  // namespace

double hot_ground_lift(double shorter, double longer) {
    const double k = 503 * pressure / (temperature * temperature) * (0.0343 + hot_ground);
    return (usual_k - k) * (longer * longer - shorter * shorter) / (2 * earth_radius);
}

double warm_up_minutes(double temperature_difference) {
    return minutes_per_degree * std::fabs(temperature_difference);
}

}  // namespace fallwright
