// dig_to: which designed surface the digging goes to at a chainage.
//
// Formation where what lies under the line is known there: bedding of the pipe, layers of the road. Else the
// profile itself, by the name the trade gives it: invert of a drain, finished level of a road, kerb or slab;
// of a line for another use invert where it has pipes, else finished. What is there (ground_along.h) less the
// design of that surface is what is to be dug, negative to be filled.
#pragma once

#include <string_view>

#include "design/design.h"

namespace fallwright {

struct DigTo {
    std::string_view what;  // empty where the line has no design there
    DesignLevel level;
};

// At a chamber or where pipes meet: the downstream side, as for formation and invert.
DigTo dig_to(const Design& design, double ch, double off);

// Whether the profile of the line is the invert of pipes.
bool carries_pipes(const LineEntry& line);

// The name of the profile's own surface.
std::string_view profile_surface(const LineEntry& line);

}  // namespace fallwright
