// surface_edges: what a book must say of a surface so that it makes the triangles of the file. Inside
// handover only.
#pragma once

#include <vector>

#include "base/result.h"
#include "exchange/handover/handover.h"

namespace fallwright::handover {

struct SurfaceEdges {
    std::vector<std::vector<std::int32_t>> breaklines;  // chains of spots
    std::vector<std::int32_t> outline;                  // spots once round; empty: the hull of all
    std::size_t holes = 0;                              // in the surface, which a book closes
};

// Edges of the file's triangles that the book's own rule (ground/triangulation.h) would not make become
// breaklines; the outline is given where it is not the hull. The finding: the faces are no surface (an edge
// of three faces, parts that hang together at a point only, spots all on one line).
Result<SurfaceEdges> edges_of(const Surface& surface);

}  // namespace fallwright::handover
