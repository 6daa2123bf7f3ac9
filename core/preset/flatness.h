// How flat a floor, slab or pavement may be: limits of a gap or of a difference of level over a base.
//
//   straightedge   depth of the surface under a straightedge that rests on two high spots, by how far these
//                  are apart. Where levels were read: how far a middle point lies off the straight between
//                  its two neighbours, base their distance
//   difference     difference of level of two points one base apart
//   change         change from one difference of level to the next, each over one base, along a straight
// A table with several bases is interpolated straight between them and rounded to whole millimetres, half up,
// as its publishers do; one with a single base holds for that base only, within 2.5 % of it. Outside its
// bases a table says nothing: NaN.
//
// share: the part of all checks that must be within the limit, 1 for every one. Metres.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

enum class FlatnessRule : std::uint8_t { Straightedge, Difference, Change };
// "straightedge", "difference", "change"
std::string_view flatness_rule_word(FlatnessRule rule);

struct FlatnessLimit {
    double base = 0;   // metres
    double limit = 0;  // millimetres
};

constexpr std::size_t most_flatness_limits = 5;

struct FlatnessCriterion {
    FlatnessRule rule = FlatnessRule::Straightedge;
    std::array<FlatnessLimit, most_flatness_limits> limits{};
    std::size_t count = 0;  // of limits; 0: no criterion
    double share = 1;
    int places = 0;  // of a limit between bases, in millimetres

    // In metres.
    double limit_m(double base) const;
    bool one_base() const { return count == 1; }
};

struct FlatnessPreset {
    std::string_view name;
    std::array<FlatnessCriterion, 2> criteria{};
    std::string_view use;
    Source source;
};

std::span<const FlatnessPreset> flatness_presets();
// Null where there is none of that name.
const FlatnessPreset* find_flatness(std::string_view name);

void list_flatness(std::vector<Listed>& all);

}  // namespace fallwright::preset
