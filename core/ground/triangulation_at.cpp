#include <cmath>

#include "ground/boundary.h"
#include "ground/mesh.h"

namespace fallwright::ground {

namespace {

// Weights of the corners: the areas across from them.
Located weigh(const Triangulation& ground, Edge e, Place at) {
    Located found;
    found.triangle = e / 3;
    const auto corner = [&](Edge each) { return ground.place[index(ground.corner[index(each)])]; };
    const auto all = static_cast<double>(side(corner(e), corner(e + 1), corner(e + 2)));
    for (int i = 0; i < 3; ++i) {
        const std::int64_t part = side(corner(next(e + i)), corner(previous(e + i)), at);
        found.weight[index(i)] = static_cast<double>(part) / all;
    }
    return found;
}

// From triangle to triangle across an edge that has the place on its other side. Among constrained triangles
// such a walk may go in circles if it always tries the same edge first, so that changes by chance.
Edge walk(const Triangulation& ground, Edge e, Place at) {
    std::uint32_t chance = 1;
    for (;;) {
        chance = chance * 1664525U + 1013904223U;
        Edge each = e + static_cast<Edge>((chance >> 16) % 3);
        Edge out = no_edge;
        for (int i = 0; i < 3 && out == no_edge; ++i, each = next(each)) {
            const Place from = ground.place[index(ground.corner[index(each)])];
            const Place to = ground.place[index(ground.corner[index(next(each))])];
            if (side(from, to, at) < 0) out = each;
        }
        if (out == no_edge) return e;
        out = ground.twin[index(out)];
        if (out == no_edge) return no_edge;
        e = out - out % 3;
    }
}

}  // namespace

Located triangle_at(const Triangulation& ground, EastNorth at, std::int32_t near) {
    const double e = std::round((at.e - ground.origin_e) * 1000),
                 n = std::round((at.n - ground.origin_n) * 1000);
    if (!(e >= 0 && e <= largest_coordinate && n >= 0 && n <= largest_coordinate)) return {};
    const Place place{static_cast<std::int32_t>(e), static_cast<std::int32_t>(n)};
    const Edge found = walk(ground, near < 0 ? 0 : 3 * near, place);
    if (found == no_edge || found / 3 >= ground.surface_triangles()) return {};
    if (found / 3 >= ground.whole && !Boundary(ground.boundary).holds(place)) return {};
    return weigh(ground, found, place);
}

double level_at(const Triangulation& ground, EastNorth at, std::int32_t near) {
    const Located found = triangle_at(ground, at, near);
    if (found.triangle < 0) return NAN;
    double level = 0;
    for (int i = 0; i < 3; ++i)
        level += found.weight[index(i)] * ground.level[index(ground.corner[index(3 * found.triangle + i)])];
    return level;
}

}  // namespace fallwright::ground
