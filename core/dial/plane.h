// plane: planes in the field, and what they are along the two axes of a machine.
//
// A plane is h = h0 + east E + north N. Along a main axis of bearing b (clockwise from north) and a cross
// axis that counts to its RIGHT it rises
//   main  =  east sin b + north cos b
//   cross =  east cos b - north sin b
// and back the same way. A line of work is such a pair too: its gradient along chainage and its crossfall,
// rising to the right, so a line turned into a machine's axes is one turn to the field and one back:
//   main  = gradient cos(a - b) - crossfall sin(a - b)        a: bearing of the line
//   cross = gradient sin(a - b) + crossfall cos(a - b)
//
// Metres and ratios; bearings in degrees where they are numbers. Only + - x / and sqrt, so the same bits in
// every build. Source: analytic geometry; tested against geo-1 to geo-5 and PLN-01 to PLN-03.
#pragma once

#include <array>
#include <vector>

#include "base/result.h"
#include "where/plan_line.h"

namespace fallwright {

// Rise per metre towards east and towards north.
struct Slope {
    double east = 0, north = 0;
};

// Rise per metre along a direction and to its right: of a machine (main, cross) or of a line (gradient,
// crossfall).
struct Axes {
    double main = 0, cross = 0;
};

// heading.known must hold.
Axes in_axes(const Slope& slope, const Heading& heading);
Slope in_field(const Axes& axes, const Heading& heading);
// From the axes of one heading to those of another.
Axes turned(const Axes& axes, const Heading& from, const Heading& to);

// Of the steepest direction, 0 or more.
double steepest(const Slope& slope);
// 0 to below 360, clockwise from north; 0 for no direction at all.
double bearing_of(double east, double north);

struct PlanePoint {
    double e = 0, n = 0, level = 0;
};

// The plane that fits points best (least squares of the levels): through three points exactly.
struct FittedPlane {
    Slope slope;
    double e = 0, n = 0, level = 0;  // a point of it: the middle of the points
    std::vector<double> residual;    // fitted - level, in order of the points
    // slope = sum of weight x level: {east, north} for each point, so that any covariance of the levels gives
    // that of the slope (Model::variance_of), and independent noise u gives u sqrt(sum of squares).
    std::vector<std::array<double, 2>> weight;
    // How far the points spread along the direction in which they spread most, and across it: the square
    // roots of the eigenvalues of their centred scatter. Noise u gives the slope u / spread each way.
    double spread_along = 0, spread_across = 0;

    double at(double east, double north) const;
    // The weight of each point in the grade along a heading and across it, as in_axes turns a slope.
    std::vector<Axes> weight_in(const Heading& heading) const;
};

// Points this much on one line, as a share of their spread along it, hold no plane: at that share an error of
// a millimetre in a place or level turns into one of a per cent across. It is the smallest eigenvalue that
// counts, not the determinant, which grows with the job.
constexpr double least_spread = 0.001;

// Fails (dial-collinear) with fewer than three points, and where they lie on one line. about is left empty.
Result<FittedPlane> fit_plane(const std::vector<PlanePoint>& points);

// Two points and a crossfall that rises to the right of the way from the first to the second.
// Fails (dial-baseline-short) where they are at one place.
Result<Slope> plane_of_two(const PlanePoint& from, const PlanePoint& to, double crossfall);

// The shortest distance over which two readings of noise u tell a gradient to +-sd: sqrt(2) u / sd.
double shortest_baseline(double noise, double gradient_sd);
// Whether a gradient known to +-sd is worth setting: sd is under a third of it, or under 0.02 %, as fine as a
// nearly level fall need be told (common practice, no source).
bool worth_setting(double gradient, double sd);

}  // namespace fallwright
