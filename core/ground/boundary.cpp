#include "ground/boundary.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fallwright::ground {

namespace {

constexpr std::size_t most_strips = 512;

int sign(std::int64_t value) {
    return value > 0 ? 1 : value < 0 ? -1 : 0;
}

// c on the line through a and b lies between them or is one of them.
bool within(Place a, Place b, Place c) {
    return std::min(a.e, b.e) <= c.e && c.e <= std::max(a.e, b.e) && std::min(a.n, b.n) <= c.n &&
           c.n <= std::max(a.n, b.n);
}

bool on(Place a, Place b, Place c) {
    return within(a, b, c) && side(a, b, c) == 0;
}

bool touch(Place a, Place b, Place c, Place d) {
    if (on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b)) return true;
    return sign(side(a, b, c)) * sign(side(a, b, d)) < 0 && sign(side(c, d, a)) * sign(side(c, d, b)) < 0;
}

// A straight side and the inside of a triangle have nothing in common where a line along one of the four
// parts them.
bool enters(Place p, Place q, const Corners& triangle) {
    int left = 0, right = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const Place a = triangle[i], b = triangle[(i + 1) % 3];
        if (side(a, b, p) <= 0 && side(a, b, q) <= 0) return false;
        left += side(p, q, a) > 0;
        right += side(p, q, a) < 0;
    }
    return left > 0 && right > 0;
}

double twice_area(const std::vector<Place>& ring) {
    double sum = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        sum += static_cast<double>(side(ring[0], ring[i], ring[i + 1]));
    return sum;
}

// The sides of a ring next to each other meet at a corner, all others nowhere.
bool simple(const std::vector<Place>& ring) {
    const std::size_t count = ring.size();
    const auto corner = [&](std::size_t i) { return ring[i % count]; };
    for (std::size_t i = 0; i < count; ++i) {
        const Place a = corner(i), b = corner(i + 1), c = corner(i + 2);
        if (on(a, b, c) || on(b, c, a)) return false;
        for (std::size_t k = i + 2; k < count && k < i + count - 1; ++k)
            if (touch(a, b, corner(k), corner(k + 1))) return false;
    }
    return true;
}

EastNorth in_metres(Place at) {
    return {at.e / 1000.0, at.n / 1000.0};
}

double off(EastNorth a, EastNorth b, EastNorth c) {
    return (b.e - a.e) * (c.n - a.n) - (b.n - a.n) * (c.e - a.e);
}

// What lies left of a to b (Sutherland, Hodgman 1974).
std::vector<EastNorth> left_of(EastNorth a, EastNorth b, const std::vector<EastNorth>& outline) {
    std::vector<EastNorth> kept;
    kept.reserve(outline.size() + 2);
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const EastNorth p = outline[i], q = outline[i + 1 == outline.size() ? 0 : i + 1];
        const double of_p = off(a, b, p), of_q = off(a, b, q);
        if (of_p >= 0) kept.push_back(p);
        if ((of_p < 0 && of_q > 0) || (of_p > 0 && of_q < 0)) {
            const double share = of_p / (of_p - of_q);
            kept.push_back({p.e + share * (q.e - p.e), p.n + share * (q.n - p.n)});
        }
    }
    return kept;
}

}  // namespace

Result<std::vector<Place>> set_boundary(const std::vector<EastNorth>& inside, const Grid& grid) {
    std::vector<Place> ring;
    ring.reserve(inside.size());
    for (const EastNorth corner : inside)
        if (const Place at = grid(corner); ring.empty() || !(ring.back() == at)) ring.push_back(at);
    while (ring.size() > 1 && ring.back() == ring.front()) ring.pop_back();
    if (ring.size() < 3 || !simple(ring))
        return finding(Code::GroundBoundary, {},
                       "Its boundary touches or crosses itself, or encloses nothing");
    if (twice_area(ring) < 0) std::reverse(ring.begin(), ring.end());
    return ring;
}

Boundary::Boundary(const std::vector<Place>& ring) : ring_(ring) {
    const auto by_north = [](Place a, Place b) { return a.n < b.n; };
    const auto [south, north] = std::minmax_element(ring.begin(), ring.end(), by_north);
    south_ = south->n;
    north_ = north->n;
    strips_.resize(std::min(most_strips, ring.size()));
    for (Side i = 0; i < static_cast<Side>(ring.size()); ++i) {
        const auto [low, high] = std::minmax({from(i).n, to(i).n});
        for (std::size_t k = strip_of(low); k <= strip_of(high); ++k) strips_[k].push_back(i);
    }
}

std::size_t Boundary::strip_of(std::int64_t north) const {
    const std::int64_t height = std::int64_t{north_} - south_ + 1;
    const std::int64_t above = std::clamp<std::int64_t>(north - south_, 0, height - 1);
    return static_cast<std::size_t>(above * static_cast<std::int64_t>(strips_.size()) / height);
}

template <class Visit>
void Boundary::each_near(std::int64_t south, std::int64_t north, Visit visit) const {
    if (north < south_ || south > north_) return;
    for (std::size_t k = strip_of(south); k <= strip_of(north); ++k)
        for (const Side i : strips_[k]) visit(from(i), to(i));
}

// Sides east of it on its own northing, odd or even. Three times the centre is a whole number.
bool Boundary::holds_centre(const Corners& t) const {
    const std::int64_t north = std::int64_t{t[0].n} + t[1].n + t[2].n;
    bool odd = false;
    each_near(north / 3, north / 3, [&](Place a, Place b) {
        if ((std::int64_t{3} * a.n > north) == (std::int64_t{3} * b.n > north)) return;
        const std::int64_t left = side(a, b, t[0]) + side(a, b, t[1]) + side(a, b, t[2]);
        if (b.n > a.n ? left > 0 : left < 0) odd = !odd;
    });
    return odd;
}

bool Boundary::holds(Place at) const {
    bool odd = false, edge = false;
    each_near(at.n, at.n, [&](Place a, Place b) {
        edge = edge || on(a, b, at);
        if ((a.n > at.n) == (b.n > at.n)) return;
        const std::int64_t left = side(a, b, at);
        if (b.n > a.n ? left > 0 : left < 0) odd = !odd;
    });
    return odd || edge;
}

bool Boundary::holds(EastNorth at) const {
    const auto north = static_cast<std::int64_t>(std::floor(at.n * 1000));
    bool odd = false;
    each_near(north, north, [&](Place p, Place q) {
        const EastNorth a = in_metres(p), b = in_metres(q);
        if ((a.n > at.n) == (b.n > at.n)) return;
        const double left = off(a, b, at);
        if (b.n > a.n ? left > 0 : left < 0) odd = !odd;
    });
    return odd;
}

Share Boundary::share(const Corners& triangle) const {
    const auto [south, north] = std::minmax({triangle[0].n, triangle[1].n, triangle[2].n});
    bool cut = false;
    each_near(south, north, [&](Place a, Place b) { cut = cut || enters(a, b, triangle); });
    if (cut) return Share::Cut;
    return holds_centre(triangle) ? Share::Whole : Share::Nothing;
}

std::vector<EastNorth> Boundary::piece(const Corners& triangle) const {
    std::vector<EastNorth> outline;
    outline.reserve(ring_.size() + 3);
    for (const Place corner : ring_) outline.push_back(in_metres(corner));
    for (std::size_t i = 0; i < 3; ++i)
        outline = left_of(in_metres(triangle[i]), in_metres(triangle[(i + 1) % 3]), outline);
    return outline;
}

std::vector<double> Boundary::meets(EastNorth from_here, EastNorth to_there) const {
    const auto [low, high] = std::minmax({from_here.n, to_there.n});
    std::vector<double> found;
    each_near(static_cast<std::int64_t>(low * 1000) - 1, static_cast<std::int64_t>(high * 1000) + 1,
              [&](Place p, Place q) {
                  const EastNorth a = in_metres(p), b = in_metres(q);
                  const double here = off(a, b, from_here), there = off(a, b, to_there);
                  const double start = off(from_here, to_there, a), end = off(from_here, to_there, b);
                  if ((here < 0) != (there < 0) && (start < 0) != (end < 0))
                      found.push_back(here / (here - there));
              });
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

}  // namespace fallwright::ground
