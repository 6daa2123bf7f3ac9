// Least cover over the crown of a buried gravity pipe, by what lies above it.
//
// Cover is what lies between the ground and the outside top of the barrel. The figures are for pipes that
// nothing protects; concrete over or around a pipe changes them, and so does the pipe's own strength, so the
// code or specification that governs the work comes first. Metres.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct CoverPreset {
    std::string_view name;
    double least = 0;        // metres over the crown
    std::string_view above;  // what lies over the pipe
    Source source;
};

// From the smallest cover to the largest.
std::span<const CoverPreset> cover_presets();
// Null where there is none of that name.
const CoverPreset* find_cover(std::string_view name);

void list_cover(std::vector<Listed>& all);

}  // namespace fallwright::preset
