// Error figures assumed where the book gives none, one standard deviation each.
//
// They are what is usual for kit in fair order, nothing more: common practice, no source. Whatever hangs on
// them is said to be "assumed, untested" once, and a check of the instrument on site, or a figure in its
// entry, replaces them. Lengths in metres, tilts and gradients in length per length, aim in degrees. An error
// that the type of instrument does not have is 0.
#pragma once

#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct ErrorFigures {
    double reading_sd = 0;       // of one reading, rounding included
    double sd_per_m = 0;         // grows with the sight, m per m, joined to reading_sd as squares
    double tilt_sd = 0;          // of the light plane in the body, the same at every set-up
    double setting_tilt_sd = 0;  // of the plane anew at every set-up
    double cone_sd = 0;          // light not square to its axis of rotation
    double collimation_sd = 0;   // line of sight not level
    double aim_sd = 0;           // of the main axis' direction, degrees
    double grade_sd = 0;         // of a gradient set on an axis
};

// 1.2 mm a reading: receiver's dead band of +-1 mm (0.58), rounding (0.29), a staff out of plumb (0.6) and
// its foot (0.8) together. Tilt: half a quoted 10 seconds of arc, 2.4e-5, parted into a lasting and a new
// part.
inline constexpr ErrorFigures assumed_rotating_laser{0.0012, 0, 2e-5, 1.3e-5, 2e-5, 0, 0.5, 3e-5};

// Half a millimetre of estimation on centimetre blocks with rounding and plumb, growing by 12 micrometres a
// metre.
inline constexpr ErrorFigures assumed_optical_level{0.0008, 1.2e-5, 0, 0, 0, 5e-5, 0, 0};

// How well the ground under the staff's foot is the point meant, by what it stands on (contract's words:
// laid, peg, ground, ...). Without a what: a hard mark. A layer of the line (`is_layer`) is judged as
// formation; any other word as ground.
double assumed_foot_sd(std::string_view what, bool is_layer);

void list_error_figures(std::vector<Listed>& all);

}  // namespace fallwright::preset
