#include "staff/window.h"

#include <algorithm>

#include "staff/face.h"

namespace fallwright::staff {

namespace {

constexpr std::int64_t usual_blocks = 30;

// Blocks begun up to `length`: a staff of 3.005 m shows part of its last block as a whole one.
std::int64_t blocks_up_to(Decimal length, Unit unit) {
    const std::int64_t block = block_height(unit).ticks();
    return (length.ticks() + block - 1) / block;
}

}  // namespace

Window window_of(const View& view) {
    Window window;
    const std::int64_t at = light_block(view);
    window.count =
        view.window ? std::max<std::int64_t>(1, blocks_up_to(*view.window, view.unit)) : usual_blocks;
    window.first = at - window.count / 2;
    if (view.length) {
        const std::int64_t end = blocks_up_to(*view.length, view.unit);
        window.first = std::min(window.first, end - window.count);
        window.count = std::min(window.count, end);
    }
    window.first = std::max<std::int64_t>(0, window.first);
    return window;
}

std::int64_t light_block(const View& view) {
    const std::int64_t at = block_of(view.reading, view.unit);
    return view.length && at > 0 ? std::min(at, blocks_up_to(*view.length, view.unit) - 1) : at;
}

Decimal past_block(const View& view) {
    return view.reading - block(light_block(view), view.unit).bottom;
}

}  // namespace fallwright::staff
