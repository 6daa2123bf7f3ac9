// How well a profile must be read with staff and level for a roughness index, by how rough the road is.
//
// World Bank Technical Paper 46 parts staff-and-level profiles into two classes by the interval and by how
// fine the staff is read; the rougher the road, the coarser it may be. From memory, not confirmed: a hint.
// What a class is worth is published (ASTM E1364, scope): class 1 an error of the index of 2 % at most, class
// 2 of 5 %. Millimetres, metres, m/km. (IR-08, IR-09.)
#pragma once

#include <array>
#include <vector>

#include "preset/preset.h"

namespace fallwright::preset {

struct StaffClass {
    int number = 0;            // 1 or 2
    double largest_error = 0;  // of the index, as a share of it
    double interval_m = 0;     // largest
    double resolution_mm = 0;  // of the staff, for a road of that index
};

// index in m/km, 0 or more; one beyond the table counts as its end.
std::array<StaffClass, 2> staff_classes(double index);

// Longest interval at which an index may be told at all: that of class 2.
constexpr double longest_interval_m = 0.5;

void list_roughness(std::vector<Listed>& all);

}  // namespace fallwright::preset
