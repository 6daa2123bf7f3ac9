#include "exchange/handover/handover.h"

#include <algorithm>

namespace fallwright::handover {

bool Handover::any_placed() const {
    return !surfaces.empty() ||
           std::any_of(points.begin(), points.end(), [](const Point& point) { return point.placed(); }) ||
           std::any_of(lines.begin(), lines.end(), [](const Line& line) { return !line.plan.empty(); });
}

}  // namespace fallwright::handover
