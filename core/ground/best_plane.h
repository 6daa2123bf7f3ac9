// best_plane: the plane that fits a measured surface best, and the two figures a laser needs to follow it.
//
// Ordinary least squares of the levels found, every spot alike, as for the straight line of a line of work:
// how uneven the ground is then stands in rms and in what lies off the plane, and not in the choice of
// weights. The uncertainties come from the joint covariance of the levels, so what the spots share (height of
// the light, its tilt) counts once. The middle of the spots is the place where the plane is known best.
//
// Metres, ratios, one standard deviation; NaN where it cannot be told. Source: docs/methods/best-plane.md.
#pragma once

#include <vector>

#include "dial/plane.h"
#include "ground/surface_of_book.h"

namespace fallwright::ground {

struct OffPlane {
    std::int32_t spot = -1;
    double off = 0, sd = 0;  // level less plane: high positive
};

struct BestPlane {
    double e = 0, n = 0, level = 0, level_sd = 0;  // at the middle of the spots
    Slope slope;                                   // rise towards east and north
    double east_sd = 0, north_sd = 0;
    double steepest = 0, steepest_sd = 0;  // of the fall, 0 or more
    double falls_to = 0;                   // its bearing, degrees; NaN of a level plane
    Heading heading;                       // of main and cross
    Axes along, along_sd;                  // rising along it, and to its right
    double rms = 0;                        // sqrt(sum of squares / n) of what lies off
    std::vector<double> off;               // per spot
    OffPlane highest, lowest;              // the first of several
};

// Fails (dial-collinear) with fewer than three spots, and where they lie on one line.
Result<BestPlane> best_plane(const std::vector<BookSpot>& spots, const Heading& heading, const Model& model);

}  // namespace fallwright::ground
