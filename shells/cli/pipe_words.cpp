#include "shells/cli/pipe_words.h"

#include <cmath>

#include "base/print.h"
#include "quantity/discharge.h"
#include "quantity/gradient.h"

namespace fallwright::cli {

namespace {

constexpr int figures = 3;
constexpr double inch = metres_per_foot / 12;
constexpr double yard = metres_per_foot * 3;

}  // namespace

std::string bore_text(double metres, Unit unit) {
    if (std::isnan(metres)) return "";
    return unit == Unit::Foot ? significant(metres / inch, figures) + " in"
                              : trimmed(metres * 1000, 1) + " mm";
}

std::string velocity_text(double metres, Unit unit) {
    return significant(Velocity::metres(metres).in(unit), figures) + (unit == Unit::Foot ? " ft/s" : " m/s");
}

// Litres as long as they are few; in feet gallons and cubic feet.
std::string flow_text(double cubic_metres, Unit unit) {
    const Discharge flow = Discharge::cubic_metres(cubic_metres);
    if (unit == Unit::Foot)
        return significant(flow.gallons_a_minute(), figures) + " gpm, " +
               significant(flow.in(unit), figures) + " ft3/s";
    return flow.litres() < 1000 ? significant(flow.litres(), figures) + " l/s"
                                : significant(flow.cubic_metres(), figures + 1) + " m3/s";
}

std::string fall_text(double fall) {
    if (std::isnan(fall)) return "";
    const std::optional<double> n = Gradient::ratio(fall).one_in();
    if (!n) return "level";
    return (fall < 0 ? "1 in -" : "1 in ") + significant(*n, figures + 1);
}

std::string volume_text(double cubic_metres, Unit unit) {
    if (std::isnan(cubic_metres)) return "";
    const bool feet = unit == Unit::Foot;
    const double volume = feet ? cubic_metres / (yard * yard * yard) : cubic_metres;
    return fixed(volume, 1) + (feet ? " yd3" : " m3");
}

}  // namespace fallwright::cli
