// How much more room dug ground takes than it had in place.
//
//   bulking = loose / in place - 1
// so that a load of loose spoil is what a lorry carries, and load factor is 1 / (1 + bulking). Figures of one
// material differ from pit to pit by more than a tenth: they are for ordering lorries, a trial on site
// governs.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct BulkingPreset {
    std::string_view name;
    double ratio = 0;  // 0.35: 35 % more
    std::string_view material;
    Source source;
};

std::span<const BulkingPreset> bulking_presets();
// Null where there is none of that name.
const BulkingPreset* find_bulking(std::string_view name);

void list_bulking(std::vector<Listed>& all);

}  // namespace fallwright::preset
