// hydraulics: steady, uniform flow by gravity in a circular pipe, full and part full.
//
// R the hydraulic radius (bore / 4 full), S the fall (positive the way the water runs), g 9.80665 m/s2
// (standard):
//   Colebrook-White   V = -2 sqrt(8 g R S) log10(k / (14.8 R) + 2.51 nu / (4 R sqrt(8 g R S)))
//                     k the roughness, nu the kinematic viscosity; the bore's 3.7 D with D = 4 R
//                     (Colebrook 1939; Ackers, Charts for the hydraulic design of channels and pipes, 1958)
//   Manning           V = R^(2/3) S^(1/2) / n, n in s/m^(1/3); 1.486 in feet is this n
//   Q = V A           Froude number V / sqrt(g A / T); shear at the wall, mean, rho g R S
//   critical          Q^2 T = g A^3
// Range: Colebrook-White is for turbulent flow, Reynolds number 4 R V / nu of 4000 and more, and k up to a
// twentieth of 4 R; below and beyond its formula may give no velocity at all, which counts as 0. Manning is
// for rough turbulent flow. Neither knows air carried along in steep pipes, deposits, bends or joints.
//
// The flow has a hump: it is greatest near y / D 0.94 (0.938 by Manning, where Q / Q full is 1.0757), the
// velocity at 0.813 under any law (HY-07). Between the full flow and the greatest one there are two depths.
// Fall 0 or adverse: no flow by gravity, velocity and flow 0, no depth. Metres, seconds, N/m2. What cannot be
// told is NaN. Roots are closed to a few last bits, from a bracket (root.h); pure.
#pragma once

#include <cmath>
#include <cstdint>

#include "drain/section.h"

namespace fallwright::drain {

constexpr double gravity = 9.80665;
constexpr double weight_of_water = 9806.65;
// Clean water of 20 degrees Celsius: with it the published tables at hand come out to their last digit. Water
// of 10 degrees (1.31e-6) runs 0.4 % slower in a drain of k 0.6 mm, 3 % slower in a smooth one.
constexpr double viscosity_of_water = 1.007e-6;
// The range of Colebrook-White.
constexpr double least_reynolds = 4000;
constexpr double roughest = 0.05;
// A fall of 1 in 1: no drain is steeper, and no fall is looked for beyond.
constexpr double steepest = 1;

struct Friction {
    enum class Law : std::uint8_t { ColebrookWhite, Manning };
    Law law = Law::ColebrookWhite;
    double roughness = 0.0006;              // k, metres, 0 or more
    double viscosity = viscosity_of_water;  // m2/s, above 0
    double manning = 0.013;                 // n, above 0

    static Friction colebrook_white(double roughness, double viscosity = viscosity_of_water);
    static Friction by_manning(double n);
};

// Mean velocity at that hydraulic radius.
double velocity(const Friction& friction, double radius, double fall);

// One state of uniform flow.
struct Uniform {
    double depth = NAN;
    Wetted wet;
    double velocity = 0, flow = 0;

    double froude() const;  // infinite where full: there is no free surface
    double shear(double fall) const { return weight_of_water * wet.radius * fall; }
    double reynolds(double viscosity) const { return 4 * wet.radius * velocity / viscosity; }
};

Uniform uniform_at_depth(const Friction& friction, double bore, double fall, double depth);
Uniform uniform_full(const Friction& friction, double bore, double fall);
// On the hump, and where the water runs fastest. Where the formula gives no velocity full bore, the full one.
Uniform greatest_flow(const Friction& friction, double bore, double fall);
Uniform greatest_velocity(const Friction& friction, double bore, double fall);

// The depths at which a pipe carries that flow, 0 or more. depth is NaN where there is none: lower above the
// greatest flow, upper also below the full one.
struct Branches {
    Uniform lower, upper;
};
Branches depths_of_flow(const Friction& friction, double bore, double fall, double flow);

// Where Q^2 T = g A^3, whatever the fall; 0 for no flow, below the bore for every flow.
double critical_depth(double bore, double flow);

// The fall that gives a velocity at that radius: 0 for no velocity, NaN above `steepest`.
double fall_of_velocity(const Friction& friction, double radius, double wanted);
// The fall that gives a flow at that depth, or full.
double fall_of_flow(const Friction& friction, double bore, double depth, double flow);
// The least fall at which the flow runs with a free surface: it then is the greatest one.
double fall_carrying(const Friction& friction, double bore, double flow);

}  // namespace fallwright::drain
