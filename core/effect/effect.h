// effect: the dictionary of what makes a reading differ from the plane it should lie on.
//
// An effect is one file: its column, its prior, its sentence. The model asks every effect of a set-up whether
// it is there and what its prior is, and for each reading what its coefficient is. The same dictionary serves
// evaluation, planning, instrument checks and suspects.
//
// Row of a reading (contract section 2), s = +1 upright, -1 inverted:
//   s (r + shoe - zero - scale r - joints) = c + (gx + tilt_x) u + (gy + tilt_y) v + cone d + (1-k) d^2/2R -
//   (h + foot) + e
// A coefficient is that of the effect's parameter on the right-hand side (staff effects, which stand on the
// left, count as s, s r).
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

#include "effect/errors.h"

namespace fallwright {

// What one reading offers to the effects. Metres, and gradients as dialled (as shown where matched).
struct SightTerms {
    double u = 0, v = 0, d = 0;
    double r = 0;    // the figure as booked, positive
    float sign = 1;  // 1 upright, -1 inverted: a float for its room
    bool has_uv = false;
};

// What one set-up offers.
struct SetupTerms {
    const InstrumentErrors* errors = nullptr;
    bool oriented = false;          // the body's axes are known
    std::array<double, 2> g{0, 0};  // main, cross: as dialled; matched: as shown, else 0
    std::array<bool, 2> matched{false, false};
    std::array<Maybe, 2> shown;

    bool level() const { return g[0] == 0 && g[1] == 0 && !matched[0] && !matched[1]; }
};

// What is believed of a parameter beforehand. sd 0: it is exactly `value`, no column. free: nothing is
// believed.
struct Prior {
    bool present = false;
    bool free = false;
    double value = 0;
    double sd = 0;

    static Prior none() { return {}; }
    static Prior normal(double value, double sd) { return {sd > 0 || value != 0, false, value, sd}; }
    static Prior unknown(double about) { return {true, true, about, 0}; }
};

enum class Scope : std::uint8_t {
    Instrument,  // one for all set-ups of the instrument between two adjustments
    Setup,       // one for each set-up
    Tripod,      // one for each tripod: set-ups that share a head share it
    SetupPoint   // one for each set-up and point read in it
};

// Whether the parameter is part of the gradient of the light itself along the main or the cross axis; what it
// adds there is its coefficient one metre along that axis.
enum class Part : std::uint8_t { Nothing, MainGradient, CrossGradient };

struct Effect {
    std::string_view name;      // for people: "tilt along the main axis"
    std::string_view sentence;  // what it does to readings
    Scope scope;
    Part part;
    Prior (*prior)(const SetupTerms&);
    double (*coefficient)(const SetupTerms&, const SightTerms&);
};

// In fixed order: columns of equal books stand in equal order.
std::span<const Effect* const> instrument_effects();
constexpr std::size_t setup_effect_count = 5;
std::span<const Effect* const, setup_effect_count> setup_effects();
// The setting of the main (0) or cross (1) grade: what an instrument shows is an observation of it.
const Effect* grade_setting(std::size_t axis);

}  // namespace fallwright
