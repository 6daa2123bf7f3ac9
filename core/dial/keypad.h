// keypad: a plane as a machine wants it keyed in, and back.
//
// Machines differ in the sign of a rise, in the side to which their cross axis counts, in the unit, in the
// least step, and in what the second axis tilts about:
//   independent  each axis sets the rise of the plane along itself
//   nested       the second axis tilts about the already tilted first one; a second tilt of tangent t gives a
//                rise t sqrt(1 + main^2) across, so for a rise `cross` the tangent to set is
//                cross / sqrt(1 + main^2). 0.13 % of it at a main grade of 5 %, 3 % at 25 % (mag-gimbal).
// Everything else in the program counts rising along main and to the right, as a ratio. An axis at exactly 0
// stays 0. Rounding is to the nearest step of what is set (of the tangent), halves away from zero.
#pragma once

#include <string>

#include "book/entry.h"
#include "dial/plane.h"

namespace fallwright {

// The tangents to set so that the plane has these grades; the same, where the axes are independent.
Axes tangents_for(const Axes& grades, const Keypad& keypad);
// The grades of a plane so set.
Axes grades_of(const Axes& tangents, const Keypad& keypad);
// The same taken to the machine's step; a step of 0 leaves them as they are.
Axes to_step(const Axes& tangents, double step);

// As the machine writes it: its sign, side and unit (per cent or per mille).
Axes as_keyed(const Axes& tangents, const Keypad& keypad);
Axes from_keyed(const Axes& keyed, const Keypad& keypad);

// "%" or "permille", as in the book; decimals that show every step (5 of a per cent where there is no step).
std::string_view keypad_unit(const Keypad& keypad);
int keypad_places(const Keypad& keypad, double step);

}  // namespace fallwright
