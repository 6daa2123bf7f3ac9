// Inside ground only. From the mesh under construction to the triangles of the result.
#pragma once

#include "ground/mesh.h"

namespace fallwright::ground {

// Takes the triangles to infinity away, turns the others so that their lowest vertex comes first, sorts them
// by their first two vertices. The mesh is empty afterwards.
void set_triangles(Mesh& mesh, Triangulation& ground);

// Puts the triangles in the order given, each named once.
void reorder(Triangulation& ground, const std::vector<std::int32_t>& order);

}  // namespace fallwright::ground
