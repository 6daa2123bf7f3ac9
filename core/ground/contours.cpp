#include "ground/contours.h"

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "ground/boundary.h"
#include "ground/contour_pieces.h"
#include "ground/contour_trace.h"

namespace fallwright::ground {

namespace {

// Lines into the answer, what the boundary takes away left out.
class Drawing {
  public:
    explicit Drawing(const Triangulation& ground) : ground_(ground) {
        if (!ground.boundary.empty()) boundary_ = std::make_unique<Boundary>(ground.boundary);
    }

    void put(Decimal level, const LinePiece& line);
    Contours take() { return std::move(drawn_); }

  private:
    // Straight, all of it inside of the boundary or none.
    struct Stretch {
        EastNorth from, to;
        bool inside;
    };
    void cut(const Crossed& from, EastNorth to);
    void put_stretches(Decimal level, bool closed);
    void close(Decimal level, bool closed);

    const Triangulation& ground_;
    std::unique_ptr<const Boundary> boundary_;  // null: nothing is taken away
    Contours drawn_;
    std::size_t begun_ = 0;  // where the line that is being written begins
    std::vector<Stretch> stretches_;
};

void Drawing::close(Decimal level, bool closed) {
    const std::size_t count = drawn_.at.size() - begun_;
    if (count >= 2)
        drawn_.lines.push_back({level, begun_, count, closed});
    else
        drawn_.at.resize(begun_);
    begun_ = drawn_.at.size();
}

void Drawing::put(Decimal level, const LinePiece& line) {
    const auto is_whole = [&](const Crossed& point) { return point.triangle < ground_.whole; };
    if (!boundary_ || std::all_of(line.points.begin(), line.points.end(), is_whole)) {
        for (const Crossed& point : line.points) drawn_.at.push_back(point.at);
        return close(level, line.closed);
    }
    stretches_.clear();
    for (std::size_t i = 0; i + 1 < line.points.size(); ++i) cut(line.points[i], line.points[i + 1].at);
    if (line.closed) cut(line.points.back(), line.points.front().at);
    put_stretches(level, line.closed);
}

void Drawing::cut(const Crossed& from, EastNorth to) {
    if (from.triangle < ground_.whole || from.triangle >= ground_.surface_triangles()) {
        stretches_.push_back({from.at, to, from.triangle < ground_.whole});
        return;
    }
    const auto on_way = [&](double share) {
        return EastNorth{from.at.e + share * (to.e - from.at.e), from.at.n + share * (to.n - from.at.n)};
    };
    std::vector<double> ends = boundary_->meets(from.at, to);
    ends.push_back(1);
    double last = 0;
    EastNorth here = from.at;
    for (const double share : ends) {
        const EastNorth there = share == 1 ? to : on_way(share);
        if (share > last) stretches_.push_back({here, there, boundary_->holds(on_way((last + share) / 2))});
        last = share;
        here = there;
    }
}

// Of a closed line the first stretch after one outside comes first.
void Drawing::put_stretches(Decimal level, bool closed) {
    const auto outside =
        std::find_if(stretches_.begin(), stretches_.end(), [](const Stretch& each) { return !each.inside; });
    if (outside == stretches_.end()) {
        for (const Stretch& stretch : stretches_) drawn_.at.push_back(stretch.from);
        if (!closed) drawn_.at.push_back(stretches_.back().to);
        return close(level, closed);
    }
    if (closed) std::rotate(stretches_.begin(), outside, stretches_.end());
    for (const Stretch& stretch : stretches_) {
        if (!stretch.inside) {
            close(level, false);
            continue;
        }
        if (drawn_.at.size() == begun_) drawn_.at.push_back(stretch.from);
        drawn_.at.push_back(stretch.to);
    }
    close(level, false);
}

}  // namespace

Result<std::vector<Decimal>> contour_levels(const Triangulation& ground, Decimal every, Decimal from) {
    if (every.ticks() <= 0) return finding(Code::GroundContours, {}, "Contours every 0 or less");
    std::vector<bool> used(ground.level.size());
    for (Edge e = 0; e < 3 * ground.surface_triangles(); ++e) used[index(ground.corner[index(e)])] = true;
    std::int64_t low = INT64_MAX, high = INT64_MIN;
    for (std::size_t v = 0; v < used.size(); ++v) {
        if (!used[v]) continue;
        const std::int64_t level = Decimal::metres(ground.level[v]).ticks();
        low = std::min(low, level);
        high = std::max(high, level);
    }
    std::vector<Decimal> levels;
    if (low > high) return levels;
    // The first multiple at or above the lowest, whichever side of `from` it is.
    const std::int64_t step = every.ticks(), above = low - from.ticks();
    const std::int64_t count = above >= 0 ? (above + step - 1) / step : -(-above / step);
    if ((high - low) / step >= static_cast<std::int64_t>(most_contour_levels))
        return finding(Code::GroundContours, {},
                       "More than " + std::to_string(most_contour_levels) + " levels of contours");
    for (std::int64_t level = from.ticks() + count * step; level <= high; level += step)
        levels.push_back(Decimal::ticks(level));
    return levels;
}

Contours draw_contours(const Triangulation& ground, const std::vector<Decimal>& levels) {
    Drawing drawing(ground);
    Tracing tracing(ground, levels);
    Pieces pieces;
    for (std::size_t k = 0; k < levels.size(); ++k) {
        tracing.each(k, [&](const Traced& traced) {
            for (const LinePiece& line : pieces.of(traced)) drawing.put(levels[k], line);
        });
        for (const LinePiece& line : join_crests(tracing.crests())) drawing.put(levels[k], line);
    }
    return drawing.take();
}

}  // namespace fallwright::ground
