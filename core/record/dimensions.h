// dimensions: dimension lines of a drawing, and lines that lead to a name. Inside record only.
#pragma once

#include <string>

#include "record/drawing.h"

namespace fallwright::record {

// Level, between a and b on one height; the figure above it, or beside it where it is too short.
void dimension_across(Drawing& drawing, double a, double b, double y, const std::string& words,
                      double size = usual_type);
// Upright, the figure turned beside it; where it is too short for that, level to its right.
void dimension_up(Drawing& drawing, double x, double a, double b, const std::string& words,
                  double size = usual_type);
// A thin line from what is meant to where its name stands, the name after it.
void draw_name_of(Drawing& drawing, sheet::At what, sheet::At name, const std::string& words,
                  double size = usual_type);

}  // namespace fallwright::record
