// surface_words: a measured surface as a person reads it: the plane that fits, what to dig and fill, where
// water will stand, how flat, point by point.
#pragma once

#include <vector>

#include "record/told.h"

namespace fallwright::record {

// surface: index in Surveys::surfaces. most_points: with more there is no table of points; 0: always.
std::vector<Told> surface_told(const Evaluation& evaluation, std::size_t surface, std::size_t most_points);

}  // namespace fallwright::record
