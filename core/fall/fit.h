// fit: the fall that is there, from the levels found along a line.
//
// For each line and each surface (what) read on it: the ordinary straight line of the adjusted levels on
// chainage, points at offset 0 only, gradient positive rising with chainage. Its uncertainty comes from the
// joint covariance of the levels, so that a tilt or cone they share is in it; how uneven the surface is
// stands in rms and off_fit alone. Fewer than two chainages: no fit. Metres, ratios, one standard deviation.
#pragma once

#include <vector>

#include "model/model.h"

namespace fallwright {

struct Fit {
    NameId what = no_name;
    double gradient = 0, sd = 0;
    double level_at_0 = 0;
    double rms = 0;  // of the levels about the line, sqrt(sum of squares / n)
};

struct Station {
    std::int32_t point = -1;  // in Model::points
    double ch = 0, off = 0;
    NameId what = no_name;
    double off_fit = 0;  // level - fitted, high positive; NaN where there is no fit or it lies off the line
};

struct LineFalls {
    std::vector<Fit> fits;          // in order of first appearance of the surface
    std::vector<Station> stations;  // in order of first appearance
};

// One for each line of the book, in its order.
std::vector<LineFalls> find_falls(const Book& book, const Model& model);

// One standard deviation of a station's off_fit, from the joint covariance of all levels the fit went
// through: what they share (height of the plane, tilt along the line) is not in it, what each has of its own
// is. NaN where there is no off_fit. One solve over the points of the fit: for those who show a table, not
// for every station of a long line.
double off_fit_sd(const LineFalls& line, const Station& station, const Model& model);

// Smallest offset that counts as one, metres.
constexpr double least_offset = 0.0005;

}  // namespace fallwright
