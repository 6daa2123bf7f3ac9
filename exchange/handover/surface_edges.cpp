#include "exchange/handover/surface_edges.h"

#include <algorithm>
#include <map>
#include <set>

namespace fallwright::handover {

namespace {

using Pair = std::pair<std::int32_t, std::int32_t>;

Pair unordered(std::int32_t a, std::int32_t b) {
    return {std::min(a, b), std::max(a, b)};
}

Finding no_surface(const Surface& surface, const std::string& why) {
    return finding(Code::ImportElement, {"line " + std::to_string(surface.line), "Surface " + surface.name},
                   "its triangles are no surface: " + why);
}

// Triangles by edge: how many lie on each, and its direction where it is one.
std::map<Pair, std::pair<int, Pair>> sides_of(const Surface& surface) {
    std::map<Pair, std::pair<int, Pair>> sides;
    for (const std::array<std::int32_t, 3>& face : surface.faces) {
        for (std::size_t i = 0; i < 3; ++i) {
            const std::int32_t a = face[i], b = face[(i + 1) % 3];
            auto& [count, way] = sides[unordered(a, b)];
            ++count;
            way = {a, b};
        }
    }
    return sides;
}

std::set<Pair> own_edges(const ground::Triangulation& made) {
    std::set<Pair> edges;
    const auto spot = [&](std::size_t edge) {
        return made.spot[static_cast<std::size_t>(made.corner[edge])];
    };
    for (std::size_t edge = 0; edge < made.corner.size(); ++edge) {
        const std::size_t next = edge % 3 == 2 ? edge - 2 : edge + 1;
        edges.insert(unordered(spot(edge), spot(next)));
    }
    return edges;
}

// Edges at the hull.
std::set<Pair> hull_edges(const ground::Triangulation& made) {
    std::set<Pair> edges;
    for (std::size_t edge = 0; edge < made.corner.size(); ++edge) {
        if (made.twin[edge] != ground::no_edge) continue;
        const std::size_t next = edge % 3 == 2 ? edge - 2 : edge + 1;
        edges.insert(unordered(made.spot[static_cast<std::size_t>(made.corner[edge])],
                               made.spot[static_cast<std::size_t>(made.corner[next])]));
    }
    return edges;
}

double area_of(const Surface& surface, const std::vector<std::int32_t>& loop) {
    std::vector<EastNorth> places;
    const Spot& from = surface.spots[static_cast<std::size_t>(loop[0])];
    for (const std::int32_t spot : loop) {
        const Spot& at = surface.spots[static_cast<std::size_t>(spot)];
        places.push_back({at.e - from.e, at.n - from.n});
    }
    double twice = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const EastNorth& a = places[i];
        const EastNorth& b = places[(i + 1) % places.size()];
        twice += a.e * b.n - a.n * b.e;
    }
    return twice / 2;
}

}  // namespace

Result<SurfaceEdges> edges_of(const Surface& surface) {
    const auto sides = sides_of(surface);
    std::map<std::int32_t, std::int32_t> onward;  // along the border
    for (const auto& [edge, side] : sides) {
        if (side.first > 2) return no_surface(surface, "three of them share a side");
        if (side.first == 1 && !onward.emplace(side.second.first, side.second.second).second)
            return no_surface(surface, "parts of it touch at a point only");
    }
    ground::SurfaceInput input;
    for (const Spot& spot : surface.spots) input.spots.push_back({spot.e, spot.n, spot.level});
    const Result<ground::Triangulation> made = ground::triangulate(input);
    if (!made) return no_surface(surface, made.finding().message);
    SurfaceEdges edges;
    const std::set<Pair> own = own_edges(*made);
    const std::set<Pair> hull = hull_edges(*made);
    bool whole = true;
    for (const auto& [edge, side] : sides) {
        if (own.count(edge) == 0) edges.breaklines.push_back({edge.first, edge.second});
        if (side.first == 1 && hull.count(edge) == 0) whole = false;
    }
    // Loops of the border; the outer one runs counterclockwise, holes clockwise.
    std::size_t outer = 0;
    while (!onward.empty()) {
        std::vector<std::int32_t> loop;
        for (auto at = onward.begin(); at != onward.end(); at = onward.find(loop.back())) {
            if (loop.empty()) loop.push_back(at->first);
            loop.push_back(at->second);
            onward.erase(at);
        }
        if (loop.front() != loop.back()) return no_surface(surface, "their sides do not close");
        loop.pop_back();
        if (area_of(surface, loop) <= 0) {
            ++edges.holes;
        } else {
            ++outer;
            edges.outline = std::move(loop);
        }
    }
    if (outer != 1) return no_surface(surface, "they lie in " + std::to_string(outer) + " parts");
    if (whole) edges.outline.clear();
    return edges;
}

}  // namespace fallwright::handover
