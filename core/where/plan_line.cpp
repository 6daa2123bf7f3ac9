#include "where/plan_line.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fallwright {

PlanLine::PlanLine(const LineEntry& line, std::int32_t index) {
    if (line.plan.size() < 2) {
        frame_ = 1 + index;
        segments_.push_back({0, 0, 0, 0, 0, 1});
        return;
    }
    double chainage = line.start;
    for (std::size_t i = 1; i < line.plan.size(); ++i) {
        const double de = line.plan[i][0] - line.plan[i - 1][0];
        const double dn = line.plan[i][1] - line.plan[i - 1][1];
        const double length = std::sqrt(de * de + dn * dn);
        segments_.push_back(
            {chainage, length, line.plan[i - 1][0], line.plan[i - 1][1], de / length, dn / length});
        chainage += length;
    }
}

Spot PlanLine::at(double ch, double off) const {
    const Segment* segment = &segments_.front();
    for (const Segment& next : segments_) {
        if (next.start < ch) segment = &next;
    }
    const double along = ch - segment->start;
    return {true, frame_, segment->e + along * segment->de + off * segment->dn,
            segment->n + along * segment->dn - off * segment->de};
}

Heading PlanLine::nearest_heading(const Spot& spot) const {
    if (spot.known && spot.frame != frame_) return {};
    if (segments_.size() == 1) return {true, segments_.front().de, segments_.front().dn};
    if (!spot.known) return {};
    const Segment* nearest = &segments_.front();
    double least = std::numeric_limits<double>::infinity();
    for (const Segment& segment : segments_) {
        const double e = spot.e - segment.e;
        const double n = spot.n - segment.n;
        const double along = std::clamp(e * segment.de + n * segment.dn, 0.0, segment.length);
        const double de = e - along * segment.de;
        const double dn = n - along * segment.dn;
        const double distance = de * de + dn * dn;
        if (distance < least) {
            nearest = &segment;
            least = distance;
        }
    }
    return {true, nearest->de, nearest->dn};
}

}  // namespace fallwright
