#include "design/flow.h"

#include <algorithm>

#include "base/print.h"
#include "design/vertices.h"

namespace fallwright {

namespace {

// How much the profile rises from its first end to its last when chambers are taken to stand as water running
// with chainage has them.
DesignLevel rise(const LineEntry& line) {
    const std::vector<ProfileVertex> vertices = lay_vertices(line, true, {});
    if (vertices.size() < 2) return {0, {}};
    return combined(1, vertices.back().before, -1, vertices.front().after);
}

bool is_rise(double metres) {
    return !std::isnan(metres) && rounded_to(metres, length_places) > 0;
}

bool design_depends_on_flow(const LineEntry& line) {
    const auto steps = [](const Chamber& chamber) {
        return chamber.out.has() && chamber.out.value != chamber.in.value;
    };
    return !line.joins.empty() || line.pipes.size() > 1 ||
           std::any_of(line.chambers.begin(), line.chambers.end(), steps);
}

}  // namespace

bool runs_with_chainage(const LineEntry& line, const LevelOf& level_of) {
    if (line.flow != Flow::Default) return line.flow == Flow::With;
    const DesignLevel up = rise(line);
    if (!up.hangs.empty() && design_depends_on_flow(line)) return true;
    return !is_rise(up.value(level_of));
}

BuiltFlow flow_without_levels(const LineEntry& line) {
    if (line.flow != Flow::Default) return {line.flow == Flow::With, false};
    const DesignLevel up = rise(line);
    if (!up.hangs.empty()) return {true, design_depends_on_flow(line)};
    return {!is_rise(up.constant), false};
}

}  // namespace fallwright
