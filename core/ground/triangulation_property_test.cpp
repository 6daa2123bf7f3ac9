// What must hold for every set of spots.
#include <gtest/gtest.h>

#include "ground/drawn_ground.h"

namespace fallwright::ground {

namespace {

// Levels of a plane, from a position in metres.
double plane(double e, double n) {
    return 20 + 0.025 * e - 0.0125 * n;
}

template <class Moved>
std::set<std::array<std::pair<int, int>, 3>> as_set(const Triangulation& ground, Moved moved) {
    std::set<std::array<std::pair<int, int>, 3>> all;
    for (std::int32_t t = 0; t < ground.triangles(); ++t) {
        std::array<std::pair<int, int>, 3> corners;
        for (std::size_t i = 0; i < 3; ++i) {
            const Place at = moved(Seen{ground}.corners(t)[i]);
            corners[i] = {at.e, at.n};
        }
        std::sort(corners.begin(), corners.end());
        all.insert(corners);
    }
    return all;
}

bool on_one_circle(const Triangulation& ground) {
    const Seen seen{ground};
    for (Edge e = 0; e < seen.edges(); ++e) {
        const Edge twin = ground.twin[index(e)];
        if (twin != no_edge &&
            circle_sign(seen.at(e), seen.at(next(e)), seen.at(previous(e)), seen.at(previous(twin))) == 0)
            return true;
    }
    return false;
}

RC_GTEST_PROP(Triangulation, CircleOfEveryTriangleIsEmpty, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(200);
    const Triangulation ground = made(input);
    check_cover(ground);
    check_circles(ground);
    RC_ASSERT(ground.place.size() + ground.together.size() == input.spots.size());
}

RC_GTEST_PROP(Triangulation, OrderOfTheSpotsChangesNothing, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(200);
    for (SpotLevel& spot : input.spots) spot.level = plane(spot.e, spot.n);
    const Triangulation one = made(input);
    std::mt19937 chance(static_cast<unsigned>(drawn(0, 1000)));
    for (std::size_t i = input.spots.size(); i-- > 1;)
        std::swap(input.spots[i], input.spots[chance() % (i + 1)]);
    const Triangulation other = made(input);
    RC_ASSERT(one.place == other.place);
    RC_ASSERT(one.corner == other.corner);
    RC_ASSERT(one.twin == other.twin);
    RC_ASSERT(one.level == other.level);
}

RC_GTEST_PROP(Triangulation, AShiftChangesNothing, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(100);
    const Triangulation one = made(input);
    for (SpotLevel& spot : input.spots) {
        spot.e += 512 * 1024;
        spot.n -= 4096 * 1024;
    }
    const Triangulation other = made(input);
    RC_ASSERT(one.place == other.place);
    RC_ASSERT(one.corner == other.corner);
    RC_ASSERT(std::abs(other.origin_n - (one.origin_n - 4096 * 1024)) < 1e-8);
}

RC_GTEST_PROP(Triangulation, TurningTurnsTheTriangles, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(60);
    const Triangulation one = made(input);
    RC_PRE(!on_one_circle(one));
    for (SpotLevel& spot : input.spots) spot = {-spot.n, spot.e, spot.level};
    const Triangulation other = made(input);
    std::int32_t highest = 0;
    for (const Place at : one.place) highest = std::max(highest, at.n);
    static std::int32_t north = 0;
    north = highest;
    RC_ASSERT(as_set(one, [](Place at) {
                  return Place{north - at.n, at.e};
              }) == as_set(other, [](Place at) { return at; }));
}

RC_GTEST_PROP(Triangulation, PlacesAreFoundAndLevelsOfAPlaneAreThatPlane, ()) {
    SurfaceInput input;
    input.spots = drawn_spots(100);
    for (SpotLevel& spot : input.spots) spot.level = plane(spot.e, spot.n);
    const Triangulation ground = made(input);
    const std::vector<Place> hull = hull_of(ground.place);
    for (int i = 0; i < 20; ++i) {
        const Place at{drawn(0, 1 << *rc::gen::inRange(2, 30)), drawn(0, 1 << *rc::gen::inRange(2, 30))};
        const EastNorth there{ground.origin_e + at.e / 1000.0, ground.origin_n + at.n / 1000.0};
        const Located found = triangle_at(ground, there, *rc::gen::element(-1, 0, ground.triangles() - 1));
        bool inside = true;
        for (std::size_t k = 0; k < hull.size(); ++k)
            inside = inside && side(hull[k], hull[(k + 1) % hull.size()], at) >= 0;
        RC_ASSERT((found.triangle >= 0) == inside);
        if (!inside) continue;
        for (const double weight : found.weight) RC_ASSERT(weight >= 0);
        const double level = level_at(ground, there), wanted = plane(there.e, there.n);
        RC_ASSERT(std::abs(level - wanted) < 1e-9 * (1 + std::abs(wanted)) + 2e-5);
    }
}

}  // namespace

}  // namespace fallwright::ground
