#include "ground/mesh.h"

namespace fallwright::ground {

Edge Mesh::add(Vertex a, Vertex b, Vertex c) {
    const auto e = static_cast<Edge>(corner.size());
    corner.insert(corner.end(), {a, b, c});
    twin.insert(twin.end(), 3, no_edge);
    return e;
}

// e runs a to b with c across, f b to a with d across.
void Mesh::flip(Edge e) {
    const Edge f = other(e), to_a = previous(e), to_b = previous(f);
    const Vertex c = across(e), d = across(f);
    const Edge beside_e = other(to_b), beside_f = other(to_a);
    corner[index(e)] = d;
    corner[index(f)] = c;
    link(e, beside_e);
    link(f, beside_f);
    link(to_a, to_b);
    if (!fixed.empty()) {
        fixed[index(e)] = fixed[index(beside_e)];
        fixed[index(f)] = fixed[index(beside_f)];
        fixed[index(to_a)] = fixed[index(to_b)] = false;
    }
    for (const Edge one : {e, next(e), to_a, next(f)})
        if (!edge_of.empty() && start(one) != far_away) edge_of[index(start(one))] = one;
}

bool Mesh::wrong(Edge e) const {
    const Vertex a = start(e), b = end(e), c = across(e), d = across(other(e));
    if (c == far_away || d == far_away) return false;
    if (a == far_away) return side(at(b), at(c), at(d)) > 0;
    if (b == far_away) return side(at(c), at(a), at(d)) > 0;
    return in_circle(at(a), at(b), at(c), at(d));
}

}  // namespace fallwright::ground
