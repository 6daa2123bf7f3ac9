#include <array>
#include <bit>

#include "ground/mesh.h"

namespace fallwright::ground {

namespace {

// Vertices come sorted along a space-filling curve. Inserting them in that order keeps each next to the one
// before it; a thinned-out choice first, then twice as many and so on, keeps long thin triangles from being
// made and unmade again and again (Amenta, Choi, Rote: biased randomised insertion order).
class Order {
  public:
    explicit Order(std::size_t count)
        : count_(count), rounds_(count < 64 ? 1 : static_cast<int>(std::bit_width(count)) - 4) {}

    template <class Insert>
    void each(Insert insert) const {
        for (int round = rounds_; round-- > 0;)
            for (std::size_t i = 0; i < count_; ++i)
                if (round_of(i) == round) insert(static_cast<Vertex>(i));
    }

  private:
    // Round k takes a vertex in 2^(k + 1); the first one what is left. Mixing by multiplication.
    int round_of(std::size_t i) const {
        const std::uint64_t mixed = (i + 1) * 0x9E3779B97F4A7C15U;
        const int zeros = std::countr_zero((mixed >> 32) | (std::uint64_t{1} << 31));
        return zeros < rounds_ ? zeros : rounds_ - 1;
    }

    std::size_t count_;
    int rounds_;
};

class Insertion {
  public:
    explicit Insertion(Mesh& mesh) : mesh_(mesh) {}

    void begin(Vertex a, Vertex b, Vertex c);
    void insert(Vertex v);

  private:
    struct Found {
        Edge edge;     // of the triangle the place lies in
        bool on_edge;  // it lies on that edge
    };
    Found find(Place at) const;
    void split(Edge e, Vertex v);
    void mend();

    Mesh& mesh_;
    Edge last_ = 0;
    std::vector<Edge> doubtful_;  // edges across from the vertex inserted
};

// The first triangle and the three outside of its edges.
void Insertion::begin(Vertex a, Vertex b, Vertex c) {
    const Edge inner = mesh_.add(a, b, c);
    const std::array<Edge, 3> outer = {mesh_.add(b, a, far_away), mesh_.add(c, b, far_away),
                                       mesh_.add(a, c, far_away)};
    for (int i = 0; i < 3; ++i) {
        const Edge here = outer[index(i)], after = outer[index((i + 1) % 3)];
        mesh_.link(inner + i, here);
        mesh_.link(previous(here), next(after));
    }
    last_ = inner;
}

// Steps across any edge that has the place on its other side: among Delaunay triangles that ends.
Insertion::Found Insertion::find(Place at) const {
    Edge e = last_ - last_ % 3;
    for (int i = 0; i < 3; ++i)
        if (mesh_.start(e + i) == far_away) {
            e = mesh_.other(next(e + i));
            break;
        }
    for (;;) {
        Edge on = no_edge, out = no_edge;
        Edge each = e;
        do {
            const std::int64_t where = side(mesh_.at(mesh_.start(each)), mesh_.at(mesh_.end(each)), at);
            if (where < 0) out = each;
            if (where == 0) on = each;
            each = next(each);
        } while (out == no_edge && each != e);
        if (out == no_edge) return {on == no_edge ? e : on, on != no_edge};
        e = mesh_.other(out);
        if (mesh_.across(e) == far_away) return {e, false};
    }
}

// One triangle into three about v.
void Insertion::split(Edge e, Vertex v) {
    const Edge to_c = next(e), to_a = previous(e);
    const Vertex a = mesh_.start(e), b = mesh_.start(to_c), c = mesh_.start(to_a);
    const Edge beside_to_c = mesh_.other(to_c), beside_to_a = mesh_.other(to_a);
    const Edge second = mesh_.add(b, c, v), third = mesh_.add(c, a, v);
    mesh_.corner[index(to_a)] = v;
    mesh_.link(second, beside_to_c);
    mesh_.link(third, beside_to_a);
    mesh_.link(to_c, second + 2);
    mesh_.link(second + 1, third + 2);
    mesh_.link(third + 1, to_a);
    doubtful_ = {e, second, third};
}

void Insertion::insert(Vertex v) {
    const Found found = find(mesh_.at(v));
    split(found.edge, v);
    // On an edge the first of the three has no area: its edge goes, whatever the circles say.
    if (found.on_edge) {
        const Edge beyond = mesh_.other(found.edge);
        mesh_.flip(found.edge);
        doubtful_.push_back(next(beyond));
    }
    last_ = found.edge;
    mend();
}

void Insertion::mend() {
    while (!doubtful_.empty()) {
        const Edge e = doubtful_.back();
        doubtful_.pop_back();
        if (!mesh_.wrong(e)) continue;
        const Edge f = mesh_.other(e);
        mesh_.flip(e);
        doubtful_.insert(doubtful_.end(), {e, next(f)});
    }
}

}  // namespace

bool insert_all(Mesh& mesh) {
    const std::size_t count = mesh.place.size();
    mesh.corner.reserve(6 * count);
    mesh.twin.reserve(6 * count);
    Insertion insertion(mesh);
    std::vector<Vertex> line;  // the first ones, as long as they lie on one line
    bool begun = false;
    Order(count).each([&](Vertex v) {
        if (begun) return insertion.insert(v);
        if (line.size() >= 2) {
            const std::int64_t where = side(mesh.at(line[0]), mesh.at(line[1]), mesh.at(v));
            if (where > 0) insertion.begin(line[0], line[1], v);
            if (where < 0) insertion.begin(line[1], line[0], v);
            begun = where != 0;
        }
        if (!begun) return line.push_back(v);
        for (std::size_t i = 2; i < line.size(); ++i) insertion.insert(line[i]);
    });
    return begun;
}

}  // namespace fallwright::ground
