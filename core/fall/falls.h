// falls: the fall between neighbours and over the whole of a line, as it was found.
//
// The difference of two levels over the distance between them, points at offset 0 of one surface in order of
// chainage; positive the way the water runs (design/flow.h). The sd comes from the joint covariance, so what
// two points share costs nothing.
#pragma once

#include <cstdint>
#include <vector>

#include "fall/fit.h"

namespace fallwright {

enum class Span : std::uint8_t { Neighbour, Line };

struct FoundFall {
    double from = 0, to = 0;  // chainages, metres, from < to
    NameId what = no_name;
    Span span = Span::Neighbour;
    double gradient = 0, sd = 0;
};

// Per surface, in order of its first appearance: neighbour by neighbour, then the whole line. Fewer than two
// chainages with a level: none.
std::vector<FoundFall> list_falls(const LineEntry& line, const LineFalls& found, const Model& model);

}  // namespace fallwright
