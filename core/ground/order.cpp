#include "ground/order.h"

#include <algorithm>

namespace fallwright::ground {

namespace {

// The edge of a triangle that starts at its lowest vertex; no_edge for one to infinity.
Edge first_edge(const Mesh& mesh, Edge e) {
    Edge first = e;
    for (const Edge each : {e, e + 1, e + 2}) {
        if (mesh.start(each) == far_away) return no_edge;
        if (mesh.start(each) < mesh.start(first)) first = each;
    }
    return first;
}

// First edges by their start, then by their end: counted into their starts, then sorted, two each.
std::vector<Edge> sorted_firsts(const Mesh& mesh) {
    std::vector<std::int32_t> begin(mesh.place.size() + 1);
    const auto edges = static_cast<Edge>(mesh.corner.size());
    for (Edge e = 0; e < edges; e += 3)
        if (const Edge first = first_edge(mesh, e); first != no_edge) ++begin[index(mesh.start(first)) + 1];
    for (std::size_t v = 1; v < begin.size(); ++v) begin[v] += begin[v - 1];
    std::vector<Edge> sorted(index(begin.back()));
    std::vector<std::int32_t> at(begin.begin(), begin.end() - 1);
    for (Edge e = 0; e < edges; e += 3)
        if (const Edge first = first_edge(mesh, e); first != no_edge)
            sorted[index(at[index(mesh.start(first))]++)] = first;
    for (std::size_t v = 0; v + 1 < begin.size(); ++v)
        std::sort(sorted.begin() + begin[v], sorted.begin() + begin[v + 1],
                  [&](Edge a, Edge b) { return mesh.end(a) < mesh.end(b); });
    return sorted;
}

}  // namespace

void set_triangles(Mesh& mesh, Triangulation& ground) {
    const std::vector<Edge> firsts = sorted_firsts(mesh);
    std::vector<Edge> moved(mesh.corner.size(), no_edge);
    Edge to = 0;
    for (const Edge first : firsts)
        for (const Edge e : {first, next(first), previous(first)}) moved[index(e)] = to++;
    ground.corner.resize(index(to));
    ground.twin.resize(index(to));
    if (!mesh.fixed.empty()) ground.fixed.resize(index(to));
    for (Edge e = 0; e < static_cast<Edge>(moved.size()); ++e) {
        const Edge there = moved[index(e)];
        if (there == no_edge) continue;
        ground.corner[index(there)] = mesh.start(e);
        ground.twin[index(there)] = moved[index(mesh.other(e))];
        if (!mesh.fixed.empty()) ground.fixed[index(there)] = mesh.fixed[index(e)];
    }
    mesh.corner = {};
    mesh.twin = {};
}

void reorder(Triangulation& ground, const std::vector<std::int32_t>& order) {
    std::vector<std::int32_t> now(order.size());  // of a triangle
    for (std::size_t t = 0; t < order.size(); ++t) now[index(order[t])] = static_cast<std::int32_t>(t);
    const std::vector<Vertex> corner = std::move(ground.corner);
    const std::vector<Edge> twin = std::move(ground.twin);
    const std::vector<bool> fixed = std::move(ground.fixed);
    ground.corner.clear();
    ground.twin.clear();
    ground.fixed.clear();
    for (const std::int32_t t : order)
        for (Edge e = 3 * t; e < 3 * t + 3; ++e) {
            const Edge beside = twin[index(e)];
            ground.corner.push_back(corner[index(e)]);
            ground.twin.push_back(beside == no_edge ? no_edge : 3 * now[index(beside / 3)] + beside % 3);
            if (!fixed.empty()) ground.fixed.push_back(fixed[index(e)]);
        }
}

}  // namespace fallwright::ground
