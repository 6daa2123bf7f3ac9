// Unit: what a bare number of a book means, metres or feet. The foot is the international one, 0.3048 m
// exactly; the older survey foot (1200/3937 m, longer by 2 parts in a million) is not taken.
#pragma once

#include <cstdint>

namespace fallwright {

enum class Unit : std::uint8_t { Metre, Foot };

constexpr double metres_per_foot = 0.3048;

}  // namespace fallwright
