#include "ground/triangulation.h"

#include "ground/mesh.h"
#include "ground/order.h"
#include "ground/vertices.h"

namespace fallwright::ground {

Result<Triangulation> triangulate(const SurfaceInput& input) {
    const Result<Grid> grid = grid_around(input);
    if (!grid) return grid.finding();
    Triangulation ground;
    const std::vector<Vertex> vertex_of = set_vertices(input, *grid, ground);
    Mesh mesh{ground.place, {}, {}, {}};
    if (!insert_all(mesh)) return finding(Code::GroundNoArea, {}, "All its spots lie on one line");
    set_triangles(mesh, ground);
    ground.whole = ground.triangles();
    return ground;
}

}  // namespace fallwright::ground
