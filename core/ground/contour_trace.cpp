#include "ground/contour_trace.h"

#include <algorithm>

namespace fallwright::ground {

template <class Each>
Tracing::Lists Tracing::list(std::size_t levels, Each each) {
    Lists lists;
    lists.begin.resize(levels + 1);
    each([&](std::int32_t, std::int32_t low, std::int32_t high) {
        for (std::int32_t k = low; k < high; ++k) ++lists.begin[index(k) + 1];
    });
    for (std::size_t k = 0; k < levels; ++k) lists.begin[k + 1] += lists.begin[k];
    lists.all.resize(lists.begin[levels]);
    std::vector<std::size_t> at(lists.begin.begin(), lists.begin.end() - 1);
    each([&](std::int32_t i, std::int32_t low, std::int32_t high) {
        for (std::int32_t k = low; k < high; ++k) lists.all[at[index(k)]++] = i;
    });
    return lists;
}

Tracing::Range Tracing::range(const Lists& lists, std::size_t level) {
    return {lists.all.data() + lists.begin[level], lists.all.data() + lists.begin[level + 1]};
}

Tracing::Tracing(const Triangulation& ground, const std::vector<Decimal>& levels)
    : ground_(ground), levels_(levels) {
    ticks_.reserve(ground.level.size());
    reached_.reserve(ground.level.size());
    for (const double metres : ground.level) {
        const Decimal level = Decimal::metres(metres);
        const auto over = std::upper_bound(levels.begin(), levels.end(), level);
        ticks_.push_back(level.ticks());
        reached_.push_back(static_cast<std::int32_t>(over - levels.begin()));
    }
    seen_.assign(index(ground.triangles()), -1);
    const auto of = [&](Edge e) { return reached_[index(ground.corner[index(e)])]; };
    crossing_ = list(levels.size(), [&](auto take) {
        for (std::int32_t t = 0; t < ground.triangles(); ++t) {
            const auto [low, high] = std::minmax({of(3 * t), of(3 * t + 1), of(3 * t + 2)});
            take(t, low, high);
        }
    });
    starts_ = list(levels.size(), [&](auto take) {
        for (Edge e = 0; e < 3 * ground.triangles(); ++e)
            if (ground.twin[index(e)] == no_edge) take(e, of(next(e)), of(e));
    });
}

bool Tracing::above(Edge e, std::size_t level) const {
    return reached_[index(ground_.corner[index(e)])] > static_cast<std::int32_t>(level);
}

// A line comes in where an edge goes down, and leaves where one goes up: so the higher ground is to its left.
Edge Tracing::entry(std::int32_t triangle, std::size_t level) const {
    Edge e = 3 * triangle;
    while (!above(e, level) || above(next(e), level)) ++e;
    return e;
}

Edge Tracing::exit(Edge entry, std::size_t level) const {
    const Edge after = next(entry);
    return above(next(after), level) ? after : next(after);
}

// From the lower end, so that both triangles find the same point.
Crossed Tracing::crossed(Edge e, std::size_t level) const {
    const bool falls = above(e, level);
    const Vertex start = ground_.corner[index(e)], end = ground_.corner[index(next(e))];
    const Vertex low = falls ? end : start, high = falls ? start : end;
    const Place a = ground_.place[index(low)], b = ground_.place[index(high)];
    const std::int64_t at = levels_[level].ticks(), below = ticks_[index(low)], over = ticks_[index(high)];
    if (at == over) return {{b.e / 1000.0, b.n / 1000.0}, high, e / 3, false};
    const double share = static_cast<double>(at - below) / static_cast<double>(over - below);
    return {{(a.e + share * (b.e - a.e)) / 1000, (a.n + share * (b.n - a.n)) / 1000}, far_away, e / 3, false};
}

// The edge between the two upper corners of a triangle; beyond it there is lower ground too.
bool Tracing::along_crest(Edge out, std::size_t level) const {
    const Edge beyond = ground_.twin[index(next(out))];
    return beyond != no_edge && !above(previous(beyond), level);
}

void Tracing::trace(Edge start, std::size_t level) {
    traced_.points.clear();
    traced_.closed = false;
    for (Edge in = start;;) {
        traced_.points.push_back(crossed(in, level));
        seen_[index(in / 3)] = static_cast<std::int32_t>(level);
        const Edge out = exit(in, level);
        Crossed& here = traced_.points.back();
        if (here.vertex != far_away) {
            const Crossed there = crossed(out, level);
            here.crest = there.vertex != far_away && there.vertex != here.vertex && along_crest(out, level);
            if (here.crest && out / 3 < ground_.twin[index(next(out))] / 3) crests_.push_back({here, there});
        }
        in = ground_.twin[index(out)];
        if (in == start) {
            traced_.closed = true;
            return;
        }
        if (in == no_edge) {
            traced_.points.push_back(crossed(out, level));
            return;
        }
    }
}

}  // namespace fallwright::ground
