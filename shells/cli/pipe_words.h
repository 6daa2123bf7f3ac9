// pipe_words: figures of pipes as people read them. Three figures; inches and gallons in books in feet.
#pragma once

#include <string>

#include "quantity/unit.h"

namespace fallwright::cli {

// "225 mm", "8 in"; "" where there is none.
std::string bore_text(double metres, Unit unit);
// Of m/s: "0.954 m/s", "3.13 ft/s".
std::string velocity_text(double metres, Unit unit);
// Of m3/s: "37.9 l/s"; in feet gallons a minute and cubic feet a second.
std::string flow_text(double cubic_metres, Unit unit);
// "1 in 150", "level"; "1 in -900" the wrong way; "" where there is none.
std::string fall_text(double fall);
// Of m3: "12.3 m3", "16.1 yd3"; "" where there is none.
std::string volume_text(double cubic_metres, Unit unit);

}  // namespace fallwright::cli
