// Inside ground only. Follows the lines of one level through the triangles of the whole hull.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "base/decimal.h"
#include "ground/mesh.h"

namespace fallwright::ground {

// A point where a line crosses an edge; `vertex` is far_away unless it crosses at that very vertex.
struct Crossed {
    EastNorth at;
    Vertex vertex;
    std::int32_t triangle;  // through which the line goes on to the next point
    bool crest;             // it goes on along an edge of its own level with lower ground on both sides
};

// A straight part of a crest from vertex to vertex.
using CrestPart = std::array<Crossed, 2>;

struct Traced {
    std::vector<Crossed> points;  // cleared and filled anew
    bool closed = false;
};

class Tracing {
  public:
    // Both outlive this.
    Tracing(const Triangulation& ground, const std::vector<Decimal>& levels);

    // Every line of one level, first those from edge to edge of the hull. Collects the parts of its crests.
    template <class Visit>
    void each(std::size_t level, Visit visit) {
        crests_.clear();
        for (const Edge e : starting_at(level)) {
            trace(e, level);
            visit(traced_);
        }
        for (const std::int32_t t : crossing(level)) {
            if (seen_[index(t)] == static_cast<std::int32_t>(level)) continue;
            trace(entry(t, level), level);
            visit(traced_);
        }
    }

    // Of the last level, each once.
    const std::vector<CrestPart>& crests() const { return crests_; }

  private:
    // Lists of edges or triangles, one for each level.
    struct Lists {
        std::vector<std::size_t> begin;
        std::vector<std::int32_t> all;
    };
    struct Range {
        const std::int32_t* first;
        const std::int32_t* last;
        const std::int32_t* begin() const { return first; }
        const std::int32_t* end() const { return last; }
    };
    // Calls each(i, lowest level, level after the highest) for what is to be listed.
    template <class Each>
    static Lists list(std::size_t levels, Each each);
    static Range range(const Lists& lists, std::size_t level);

    Range starting_at(std::size_t level) const { return range(starts_, level); }
    Range crossing(std::size_t level) const { return range(crossing_, level); }
    bool above(Edge e, std::size_t level) const;
    Edge entry(std::int32_t triangle, std::size_t level) const;
    Edge exit(Edge entry, std::size_t level) const;
    Crossed crossed(Edge e, std::size_t level) const;
    bool along_crest(Edge out, std::size_t level) const;
    void trace(Edge start, std::size_t level);

    const Triangulation& ground_;
    const std::vector<Decimal>& levels_;
    std::vector<std::int64_t> ticks_;    // per vertex
    std::vector<std::int32_t> reached_;  // per vertex: how many levels it is at or above
    std::vector<std::int32_t> seen_;     // per triangle: the last level traced through it
    Lists starts_, crossing_;
    Traced traced_;
    std::vector<CrestPart> crests_;
};

}  // namespace fallwright::ground
