#include "dial/aim.h"

#include <cmath>

#include "quantity/angle.h"

namespace fallwright {

namespace {

double first_order(const Axes& grades, double u, double v) {
    return grades.main * v - grades.cross * u;
}
double second_order(const Axes& grades, double u, double v) {
    return -(grades.main * u + grades.cross * v) / 2;
}

}  // namespace

double raised_by_turn(const Axes& grades, double u, double v, double turn) {
    return turn * first_order(grades, u, v) + turn * turn * second_order(grades, u, v);
}

double cost_of_turn(const Axes& grades, double u, double v, double turn) {
    return std::fabs(turn * first_order(grades, u, v)) + std::fabs(turn * turn * second_order(grades, u, v));
}

double gradient_beside(const Axes& grades, double angle) {
    const SinCos at = sincos_degrees(angle);
    return grades.main * at.cos + grades.cross * at.sin;
}

double change_beside(const Axes& grades, double angle) {
    const SinCos at = sincos_degrees(angle);
    return grades.cross * at.cos - grades.main * at.sin;
}

AimEffect aim_effect(const Axes& grades, double aim_sd, double grade_sd) {
    const double square = aim_sd * aim_sd;
    const double first = grades.cross * aim_sd;
    const double second = grades.main * square / std::sqrt(2.0);
    return {-grades.main * square / 2, std::sqrt(grade_sd * grade_sd + first * first + second * second)};
}

}  // namespace fallwright
