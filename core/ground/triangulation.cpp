#include "ground/triangulation.h"

#include <algorithm>

#include "ground/boundary.h"
#include "ground/mesh.h"
#include "ground/order.h"
#include "ground/vertices.h"

namespace fallwright::ground {

namespace {

std::vector<Wanted> parts_of(const std::vector<std::vector<std::int32_t>>& breaklines,
                             const std::vector<Vertex>& vertex_of) {
    std::vector<Wanted> parts;
    for (std::size_t line = 0; line < breaklines.size(); ++line)
        for (std::size_t i = 0; i + 1 < breaklines[line].size(); ++i)
            parts.push_back({vertex_of[index(breaklines[line][i])], vertex_of[index(breaklines[line][i + 1])],
                             static_cast<std::int32_t>(line), static_cast<std::int32_t>(i)});
    return parts;
}

bool carries(const Mesh& mesh, const Wanted& part, Edge e) {
    const Place from = mesh.at(part.from), to = mesh.at(part.to);
    return side(from, to, mesh.at(mesh.start(e))) == 0 && side(from, to, mesh.at(mesh.end(e))) == 0;
}

void fix_breaklines(Mesh& mesh, const std::vector<Wanted>& parts, std::vector<Crossing>& crossings) {
    if (parts.empty()) return;
    Fixing fixing(mesh);
    for (auto part = parts.begin(); part != parts.end(); ++part) {
        const Edge met = fixing.fix(part->from, part->to);
        if (met == no_edge) continue;
        const auto other =
            std::find_if(parts.begin(), part, [&](const Wanted& each) { return carries(mesh, each, met); });
        crossings.push_back({part->line, part->segment, other->line, other->segment});
    }
}

// Sides of the boundary whose ends are spots.
void fix_boundary(Mesh& mesh, const Grid& grid, const std::vector<Place>& ring) {
    const auto vertex_at = [&](Place at) {
        const auto found = std::lower_bound(mesh.place.begin(), mesh.place.end(), at,
                                            [&](Place a, Place b) { return grid.rank(a) < grid.rank(b); });
        return found != mesh.place.end() && *found == at ? static_cast<Vertex>(found - mesh.place.begin())
                                                         : far_away;
    };
    Fixing fixing(mesh);
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vertex from = vertex_at(ring[i]), to = vertex_at(ring[(i + 1) % ring.size()]);
        if (from != far_away && to != far_away) fixing.fix(from, to);
    }
}

Corners corners_of(const Triangulation& ground, std::int32_t triangle) {
    const auto corner = [&](int i) { return ground.place[index(ground.corner[index(3 * triangle + i)])]; };
    return {corner(0), corner(1), corner(2)};
}

// Whole triangles, those that are cut, those outside.
void cut_to_boundary(Triangulation& ground) {
    const Boundary boundary(ground.boundary);
    std::array<std::vector<std::int32_t>, 3> sorted;
    for (std::int32_t t = 0; t < ground.triangles(); ++t)
        sorted[static_cast<std::size_t>(boundary.share(corners_of(ground, t)))].push_back(t);
    ground.whole = static_cast<std::int32_t>(sorted[0].size());
    for (const std::int32_t t : sorted[1])
        ground.cut.push_back({ground.surface_triangles(), boundary.piece(corners_of(ground, t))});
    for (std::size_t k = 1; k < 3; ++k) sorted[0].insert(sorted[0].end(), sorted[k].begin(), sorted[k].end());
    reorder(ground, sorted[0]);
}

}  // namespace

Result<Triangulation> triangulate(const SurfaceInput& input) {
    const Result<Grid> grid = grid_around(input);
    if (!grid) return grid.finding();
    Triangulation ground;
    if (!input.inside.empty()) {
        Result<std::vector<Place>> ring = set_boundary(input.inside, *grid);
        if (!ring) return ring.finding();
        ground.boundary = std::move(*ring);
    }
    const std::vector<Vertex> vertex_of = set_vertices(input, *grid, ground);
    Mesh mesh{ground.place, {}, {}, {}};
    if (!insert_all(mesh)) return finding(Code::GroundNoArea, {}, "All its spots lie on one line");
    fix_breaklines(mesh, parts_of(input.breaklines, vertex_of), ground.crossings);
    if (!ground.boundary.empty()) fix_boundary(mesh, *grid, ground.boundary);
    set_triangles(mesh, ground);
    ground.whole = ground.triangles();
    if (!ground.boundary.empty()) cut_to_boundary(ground);
    return ground;
}

}  // namespace fallwright::ground
