#include "fall/dig_to.h"

#include <utility>

namespace fallwright {

bool carries_pipes(const LineEntry& line) {
    return line.use == LineUse::Drain || (line.use == LineUse::Other && !line.pipes.empty());
}

std::string_view profile_surface(const LineEntry& line) {
    return carries_pipes(line) ? "invert" : "finished";
}

DigTo dig_to(const Design& design, double ch, double off) {
    if (!design.any()) return {};
    for (const std::string_view what : {std::string_view("formation"), profile_surface(design.line())}) {
        DesignLevel level = design.level(what, ch, off);
        if (level.has()) return {what, std::move(level)};
    }
    return {};
}

}  // namespace fallwright
