// aim: what it costs to point the main axis a little beside its bearing.
//
// A body turned by d (radians, clockwise) carries its plane with it. At u, v (along main, to the right) the
// light is then higher by
//   first order   d (main v - cross u)
//   second order  - d^2 / 2 (main u + cross v)
// so with no cross grade a degree is nearly harmless straight ahead, and with one it is not: 1 degree with 2
// % across changes the grade ahead by 0.035 %. Third and higher orders are under 2e-4 of the first at a
// degree. Along the main axis itself an aim of sd s shifts the gradient on average by - main s^2 / 2 and
// spreads it by main s^2 / sqrt(2) in second order, cross s in first. Checked by simulation
// (prop-misalign-2nd, prop-yaw-*).
#pragma once

#include "dial/plane.h"

namespace fallwright {

// How much higher the light is at u, v metres once the body is turned by that many radians; both orders.
double raised_by_turn(const Axes& grades, double u, double v, double turn);
// The larger of the two ways to turn, without a sign.
double cost_of_turn(const Axes& grades, double u, double v, double turn);

// The gradient along a direction `angle` degrees clockwise of main: main cos + cross sin.
double gradient_beside(const Axes& grades, double angle);
// Its change per radian of turn of that direction: cross cos - main sin.
double change_beside(const Axes& grades, double angle);

// What an aim of sd (radians) does to the gradient along main, second order in; grade_sd: of main itself.
struct AimEffect {
    double bias = 0, sd = 0;
};
AimEffect aim_effect(const Axes& grades, double aim_sd, double grade_sd);

constexpr double one_degree = 0.017453292519943295;  // radians

}  // namespace fallwright
