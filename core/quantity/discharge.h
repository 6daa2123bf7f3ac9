// Discharge and velocity of water as quantities, and the ways the trade writes them.
//
// Inside: m3/s and m/s, double. Neither is a number, a Length or the other: a unit is always named, by a
// constructor or by the default unit.
//
// Text, after spaces and capitals are evened out:
//   2.5 l/s   litres/s   150 l/min   9 m3/h   0.0025 m3/s   9 m^3/h             metric
//   40 gpm   gal/min   0.54 cfs   ft3/s   cu ft/s   cubic feet per second   1.2 MGD   US customary
//   0.7 m/s   700 mm/s   2.3 ft/s   2.3 fps   m per s                          velocity
// A gallon is that of the United States, 231 cubic inches or 3.785411784 litres exactly; MGD a million of
// them a day. A bare number is in the default unit: m3/s and m/s, or ft3/s and ft/s. Never negative: which
// way water runs is said by the fall. Numbers are read as in quantity/length.h; every refusal is a finding
// bad-number that quotes the text and says the cure.
#pragma once

#include <compare>
#include <string_view>

#include "base/result.h"
#include "quantity/unit.h"

namespace fallwright {

// Exact: the foot is the international one, the gallon 231 cubic inches.
constexpr double cubic_metres_per_cubic_foot = metres_per_foot * metres_per_foot * metres_per_foot;
constexpr double litres_per_gallon = 3.785411784;

// Volume a time.
class Discharge {
  public:
    constexpr Discharge() = default;
    static constexpr Discharge cubic_metres(double a_second) { return Discharge(a_second); }
    static constexpr Discharge litres(double a_second) { return Discharge(a_second / 1000); }
    // A bare number in that unit, cubed, a second.
    static constexpr Discharge in(Unit unit, double value) {
        return Discharge(unit == Unit::Foot ? value * cubic_metres_per_cubic_foot : value);
    }

    // Each of them a second, in that unit cubed where a unit is named.
    constexpr double cubic_metres() const { return value_; }
    constexpr double litres() const { return value_ * 1000; }
    constexpr double in(Unit unit) const {
        return unit == Unit::Foot ? value_ / cubic_metres_per_cubic_foot : value_;
    }
    // US gallons a minute, and millions of them a day.
    constexpr double gallons_a_minute() const { return litres() / litres_per_gallon * 60; }
    constexpr double million_gallons_a_day() const { return gallons_a_minute() * 1440 / 1e6; }

    // Compared with another discharge only.
    constexpr auto operator<=>(const Discharge&) const = default;

  private:
    explicit constexpr Discharge(double value) : value_(value) {}
    double value_ = 0;  // m3/s
};

// Length a time, without a direction.
class Velocity {
  public:
    constexpr Velocity() = default;
    static constexpr Velocity metres(double a_second) { return Velocity(a_second); }
    // A bare number in that unit a second.
    static constexpr Velocity in(Unit unit, double value) {
        return Velocity(unit == Unit::Foot ? value * metres_per_foot : value);
    }

    // A second.
    constexpr double metres() const { return value_; }
    constexpr double in(Unit unit) const { return unit == Unit::Foot ? value_ / metres_per_foot : value_; }

    constexpr auto operator<=>(const Velocity&) const = default;

  private:
    explicit constexpr Velocity(double value) : value_(value) {}
    double value_ = 0;  // m/s
};

// `unit`: of a figure without one, cubed a second or a second.
Result<Discharge> parse_discharge(std::string_view text, Unit unit);
Result<Velocity> parse_velocity(std::string_view text, Unit unit);

}  // namespace fallwright
