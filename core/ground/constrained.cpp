#include <deque>
#include <utility>

#include "ground/mesh.h"

namespace fallwright::ground {

// What lies on the way from one vertex towards another, up to the first vertex on it: edges crossed, each
// from its right end to its left end.
struct Fixing::Way {
    Vertex reached;
    std::vector<Edge> crossed;
};

Fixing::Fixing(Mesh& mesh) : mesh_(mesh) {
    mesh.fixed.resize(mesh.corner.size());
    mesh.edge_of.resize(mesh.place.size());
    for (std::size_t e = 0; e < mesh.corner.size(); ++e)
        if (mesh.corner[e] != far_away) mesh.edge_of[index(mesh.corner[e])] = static_cast<Edge>(e);
}

Fixing::Way Fixing::look(Vertex from, Vertex to) const {
    const Place a = mesh_.at(from), b = mesh_.at(to);
    const auto where = [&](Vertex v) { return v == far_away ? 0 : side(a, b, mesh_.at(v)); };
    const auto ahead = [&](Vertex v) {
        const Place at = mesh_.at(v);
        return (std::int64_t{b.e} - a.e) * (std::int64_t{at.e} - a.e) +
                   (std::int64_t{b.n} - a.n) * (std::int64_t{at.n} - a.n) >
               0;
    };
    // Around the start to the triangle that the way enters; an edge along the way may come first.
    Edge e = mesh_.edge_of[index(from)];
    for (;; e = mesh_.other(previous(e))) {
        const Vertex right = mesh_.end(e);
        if (right != far_away && where(right) == 0 && ahead(right)) return {right, {}};
        if (where(right) < 0 && where(mesh_.across(e)) > 0) break;
    }
    Way way{to, {}};
    for (e = next(e);;) {
        way.crossed.push_back(e);
        const Edge beyond = mesh_.other(e);
        way.reached = mesh_.across(beyond);
        const std::int64_t found = where(way.reached);
        if (found == 0) return way;
        e = found > 0 ? next(beyond) : previous(beyond);
    }
}

Edge Fixing::crossed(Vertex from, Vertex to) const {
    while (from != to) {
        const Way way = look(from, to);
        for (const Edge e : way.crossed)
            if (mesh_.fixed[index(e)]) return e;
        from = way.reached;
    }
    return no_edge;
}

Edge Fixing::between(Vertex from, Vertex to) const {
    Edge e = mesh_.edge_of[index(from)];
    while (mesh_.end(e) != to) e = mesh_.other(previous(e));
    return e;
}

Edge Fixing::fix(Vertex from, Vertex to) {
    if (const Edge e = crossed(from, to); e != no_edge) return e;
    while (from != to) {
        const Way way = look(from, to);
        clear(from, way);
        const Edge e = between(from, way.reached);
        mesh_.fixed[index(e)] = mesh_.fixed[index(mesh_.other(e))] = true;
        mend();
        from = way.reached;
    }
    return no_edge;
}

// Turns the edges crossed, those first that can be turned (Sloan 1993); an edge that still crosses waits.
void Fixing::clear(Vertex from, const Way& way) {
    const Place a = mesh_.at(from), b = mesh_.at(way.reached);
    std::deque<std::pair<Vertex, Vertex>> waiting;
    for (const Edge e : way.crossed) waiting.emplace_back(mesh_.start(e), mesh_.end(e));
    std::vector<std::pair<Vertex, Vertex>> turned;
    while (!waiting.empty()) {
        const auto [right, left] = waiting.front();
        waiting.pop_front();
        const Edge e = between(right, left);
        const Vertex c = mesh_.across(e), d = mesh_.across(mesh_.other(e));
        const Place at_c = mesh_.at(c), at_d = mesh_.at(d);
        if (side(at_c, at_d, mesh_.at(right)) >= 0 || side(at_c, at_d, mesh_.at(left)) <= 0) {
            waiting.emplace_back(right, left);
            continue;
        }
        mesh_.flip(e);
        const std::int64_t of_c = side(a, b, at_c), of_d = side(a, b, at_d);
        if (of_c < 0 && of_d > 0)
            waiting.emplace_back(c, d);
        else if (of_d < 0 && of_c > 0)
            waiting.emplace_back(d, c);
        else
            turned.emplace_back(c, d);
    }
    for (const auto& [c, d] : turned) doubtful_.push_back(between(c, d));
}

// A flip moves two of the four edges around it to other numbers, so all four are looked at again.
void Fixing::mend() {
    while (!doubtful_.empty()) {
        const Edge e = doubtful_.back();
        doubtful_.pop_back();
        if (mesh_.fixed[index(e)] || !mesh_.wrong(e)) continue;
        const Edge f = mesh_.other(e);
        mesh_.flip(e);
        doubtful_.insert(doubtful_.end(), {e, next(e), f, next(f)});
    }
}

}  // namespace fallwright::ground
