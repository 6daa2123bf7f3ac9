// The blocks a picture shows. Inside staff only.
#pragma once

#include <cstdint>

#include "staff/picture.h"

namespace fallwright::staff {

struct Window {
    std::int64_t first = 0;  // number of the lowest block, by figures
    std::int64_t count = 1;
};

Window window_of(const View& view);

// The block the light falls on: at the very end of the staff the last one, though a line belongs to the block
// above it.
std::int64_t light_block(const View& view);

// How far the reading lies above the lower edge (by figures) of that block.
Decimal past_block(const View& view);

}  // namespace fallwright::staff
