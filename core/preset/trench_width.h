// How wide a trench is to be at least, by the pipe in it, its depth and how its sides stand.
//
// A rule adds to the outside of the pipe, by the class of its bore, and asks for a width of its own by depth;
// the larger of the two holds. Widths are at the trench bottom, between the faces of the support where there
// is one. They are for working beside the pipe; whether sides stand is for the competent person, at every
// depth. Metres.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct TrenchWidthPreset {
    std::string_view name;
    std::string_view use;
    // outside x factor + add; of several the largest. Up to a bore (inclusive), in rising order.
    struct Beside {
        double largest_bore = 0;
        double factor = 1, add = 0;
    };
    std::array<Beside, 5> by_bore{};
    Beside or_else{0, 0, 0};  // a second formula; 0: none
    bool by_depth = false;    // 0.80, 0.90, 1.00 m from 1.00, over 1.75, over 4.00 m of depth
    Source source;

    // bore and outside diameter above 0; a depth below 0 counts as 0.
    double least(double bore, double outside, double depth) const;
};

// The depths at which the width of a rule that goes by depth steps.
inline constexpr std::array<double, 3> width_steps = {1.0, 1.75, 4.0};

std::span<const TrenchWidthPreset> trench_width_presets();
// Null where there is none of that name.
const TrenchWidthPreset* find_trench_width(std::string_view name);

void list_trench_width(std::vector<Listed>& all);

}  // namespace fallwright::preset
