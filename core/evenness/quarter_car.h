// quarter_car: the response of the reference car to a road profile, and the roughness index made of it.
//
// A quarter of a car, masses in proportion to the sprung mass, at 80 km/h over a profile of height y(x):
//
//   zs'' = -K2 (zs - zu) - C (zs' - zu')                                         K2 63.3 1/s2    C 6 1/s
//   mu zu'' = K2 (zs - zu) + C (zs' - zu') - K1 (zu - y)                         K1 653 1/s2     mu 0.15
//
// The equations are linear, so with slopes in place of heights they hold alike: the state is Z = (zs, zs',
// zu, zu') of slopes, and over one interval dx of constant slope u, in the time dt = dx / V,
//
//   Z_i = ST Z_(i-1) + PR u_i         ST = exp(A dt), PR = A^-1 (ST - I) B           u_i = (y_i - y_(i-1)) /
//   dx
//
// exactly. It begins as if the slope over the first 11 m had lasted for ever: zs = zu = that slope, zs' = zu'
// = 0. The index is the mean of |zs - zu| over all intervals: a ratio, written in m/km (or mm/m). A plane
// grade of any slope has index 0, and the index grows in proportion to the profile.
//
// Intervals under 0.25 m: the profile is first averaged over 0.25 m (k = 0.25 / dx samples, rounded half up),
// as a tyre does. Intervals of 0.25 m and more: not averaged, a tyre's width of road is not seen.
//
// Only + - x / and sqrt: the same bits in every build. Source: M. W. Sayers, TRR 1501 (1995) for the
// equations and constants (IR-01); World Bank Technical Paper 46 (1986) for the matrices of 0.1, 0.2 and 0.25
// m, which exp(A dt) gives to their last printed digits (IR-02, IR-03), and, from memory, for the beginning
// (IR-05).
#pragma once

#include <array>
#include <vector>

namespace fallwright {

using CarState = std::array<double, 4>;  // slopes: zs, zs', zu, zu'

struct CarStep {
    std::array<CarState, 4> st;  // rows
    CarState pr;
};

// Over an interval of dx metres, above 0.
CarStep car_step(double dx);

constexpr double tyre_base = 0.25;  // metres: profiles read closer are averaged over it
constexpr double start_up = 11;     // metres whose mean slope begins

// How many samples are averaged at an interval: 1 from 0.25 m on.
std::size_t averaged_samples(double dx);

class QuarterCar {
  public:
    // dx: interval in metres, above 0.
    explicit QuarterCar(double dx);

    // zs - zu after each interval of the profile (one fewer than heights), as ratios. From the usual
    // beginning, or from a state of slopes.
    std::vector<double> motion(const std::vector<double>& heights) const;
    std::vector<double> motion(const std::vector<double>& heights, const CarState& from) const;

    // Mean of |zs - zu|, a ratio. heights: as read, averaged here where dx asks for it. NaN where fewer than
    // two are left.
    double index(const std::vector<double>& heights) const;
    // How the index changes with each height: its derivative, as long as no |zs - zu| changes its sign.
    std::vector<double> sensitivity(const std::vector<double>& heights) const;
    // The index that a perfectly even road would show to be read with independent errors of sd 1 m at each of
    // `count` heights, by the model's own response: mean over the intervals of sqrt(2 / pi) sd(zs - zu).
    double index_of_noise(std::size_t count) const;

  private:
    std::vector<double> averaged(const std::vector<double>& heights) const;
    CarState beginning(const std::vector<double>& heights) const;
    std::size_t start_intervals(std::size_t heights) const;

    double dx_;
    CarStep step_;
};

}  // namespace fallwright
