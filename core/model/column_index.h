// column_index: which column of the problem an effect has, for those who ask about readings to come.
#pragma once

#include <array>
#include <map>
#include <utility>
#include <vector>

#include "adjust/adjust.h"
#include "effect/effect.h"

namespace fallwright {

// An exactly known parameter, or one nothing carries, has no column.
constexpr adjust::Column no_column = -1;

// Columns stand in the order of instrument_effects(), setup_effects() and staff_effects().
struct ColumnIndex {
    // By instrument and stretch between two adjustments.
    std::map<std::pair<std::size_t, std::int32_t>, std::vector<adjust::Column>> instruments;
    std::vector<std::array<adjust::Column, setup_effect_count>> setups;  // per set-up; aim: of its tripod
    std::vector<std::vector<adjust::Column>> staffs;                     // per staff
    std::vector<adjust::Column> heads;  // per set-up: of a head that was turned
};

}  // namespace fallwright
