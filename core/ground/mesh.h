// Inside ground only. Triangles under construction: edges as in Triangulation, and outside of every edge of
// the hull a triangle to a vertex at infinity, so that each edge has a twin and points outside the hull are
// no special case.
#pragma once

#include <cstdint>
#include <vector>

#include "ground/predicates.h"
#include "ground/triangulation.h"

namespace fallwright::ground {

using Edge = std::int32_t;
using Vertex = std::int32_t;

// The vertex at infinity.
constexpr Vertex far_away = -1;

// Within the triangle.
inline Edge next(Edge e) {
    return e % 3 == 2 ? e - 2 : e + 1;
}
inline Edge previous(Edge e) {
    return e % 3 == 0 ? e + 2 : e - 1;
}
inline std::size_t index(std::int32_t i) {
    return static_cast<std::size_t>(i);
}

struct Mesh {
    const std::vector<Place>& place;
    std::vector<Vertex> corner;
    std::vector<Edge> twin;
    std::vector<bool> fixed;  // per edge; empty: none
    std::vector<Edge> edge_of =
        {};  // per vertex one edge that starts there, kept up by flip() where it is filled

    Vertex start(Edge e) const { return corner[index(e)]; }
    Vertex end(Edge e) const { return corner[index(next(e))]; }
    Vertex across(Edge e) const { return corner[index(previous(e))]; }
    Edge other(Edge e) const { return twin[index(e)]; }
    const Place& at(Vertex v) const { return place[index(v)]; }
    bool is_fixed(Edge e) const { return !fixed.empty() && fixed[index(e)]; }

    void link(Edge a, Edge b) {
        twin[index(a)] = b;
        twin[index(b)] = a;
    }
    // Appends a triangle, not linked; its first edge.
    Edge add(Vertex a, Vertex b, Vertex c);
    // Edge a b of the triangles a b c and b a d becomes c d: afterwards e runs d to b and its triangle is d b
    // c, the other one c a d with the twin e had running c to a.
    void flip(Edge e);
    // Whether e is no Delaunay edge between the two triangles beside it.
    bool wrong(Edge e) const;
};

// Inserts every vertex of mesh.place into the empty mesh; false if all lie on one line.
bool insert_all(Mesh& mesh);

// A part of a breakline or of the boundary; line and segment number it for the report.
struct Wanted {
    Vertex from, to;
    std::int32_t line, segment;
};

// Makes edges of parts, one after the other. It fills mesh.edge_of and mesh.fixed.
class Fixing {
  public:
    explicit Fixing(Mesh& mesh);
    // Splits the part at vertices that lie on it. Does nothing if it crosses an edge that is fixed; returns
    // that edge, no_edge where all is well.
    Edge fix(Vertex from, Vertex to);

  private:
    struct Way;
    Way look(Vertex from, Vertex to) const;
    Edge crossed(Vertex from, Vertex to) const;
    Edge between(Vertex from, Vertex to) const;
    void clear(Vertex from, const Way& way);
    void mend();

    Mesh& mesh_;
    std::vector<Edge> doubtful_;
};

}  // namespace fallwright::ground
