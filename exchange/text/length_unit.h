// Units of length a sheet may name.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace fallwright::text {

enum class LengthUnit : std::uint8_t {
    None,
    Metre,
    Decimetre,
    Centimetre,
    Millimetre,
    Kilometre,
    Foot,
    Inch
};

// "mm", "Feet", "m." ...; nothing where the word is no unit of length taken here.
std::optional<LengthUnit> length_unit(std::string_view word);

// Units of length that are not taken: yards, links, chains, the US survey foot.
bool refused_unit(std::string_view word);

bool imperial(LengthUnit unit);

// A unit as `factor` steps of 10^-shift metres, and in ticks of 1e-7 m. None counts as Metre.
struct UnitScale {
    std::int64_t factor;
    int shift;
    std::int64_t ticks;
};

UnitScale scale_of(LengthUnit unit);

}  // namespace fallwright::text
