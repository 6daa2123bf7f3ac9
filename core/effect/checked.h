// checked: what is believed of an instrument's errors once it was checked on site.
//
// A check finds several errors from the same shots, so what it finds of one depends on what it finds of the
// other: they come with their covariance. Joined with the instrument's entry they are the prior of every
// reading of one stretch between two adjustments. Which checks count is for the stage trial to say; whoever
// evaluates readings takes this as it is.
//
// Errors are those of instrument_effects() that a check can see, in their order; length per length.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <utility>

#include "effect/effect.h"

namespace fallwright {

constexpr std::size_t tested_errors = 4;  // tilt main, tilt cross, cone, collimation

using ErrorVector = std::array<double, tested_errors>;
using ErrorMatrix = std::array<ErrorVector, tested_errors>;

// Errors that are exactly known have a row and column of 0.
struct CheckedErrors {
    ErrorVector value{};
    ErrorMatrix covariance{};
    std::array<bool, tested_errors> seen{};  // by a check; else what the entry says
};

// By instrument and stretch; only where a check counts.
using CheckedInstruments = std::map<std::pair<std::size_t, std::int32_t>, CheckedErrors>;

// An effect's prior in a set-up: that of the check where there is one, else the entry's. `which`: its place
// in instrument_effects(). A tilt does not apply to a body whose axes are not known, checked or not.
Prior checked_prior(const CheckedErrors* checked, std::size_t which, const Effect& effect,
                    const SetupTerms& setup);

}  // namespace fallwright
