// Figures of the Earth that grids are worked out on: ellipsoids of revolution.
//
// Defining constants: half the larger axis a in metres, and 1 / f, f = (a - b) / a. Those of the geodetic
// systems in use are exact by definition; the older ones are as adopted by their surveys. All from memory,
// and held to the figures of the PROJ library by tests/exchange.
#pragma once

#include <string>
#include <string_view>

namespace fallwright::preset {

struct Ellipsoid {
    std::string_view name;  // as a rule projection names it
    double a = 0, inverse_flattening = 0;
};

// Null where there is none of that name.
const Ellipsoid* find_ellipsoid(std::string_view name);

// All names, as a sentence lists them.
std::string ellipsoid_names();

}  // namespace fallwright::preset
