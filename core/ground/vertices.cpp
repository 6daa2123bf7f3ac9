#include "ground/vertices.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "base/decimal.h"
#include "ground/mesh.h"

namespace fallwright::ground {

namespace {

// To 1e-7 m first, so that what differs in its last bits between builds is the same millimetre.
std::int64_t millimetres(double metres) {
    const std::int64_t ticks = Decimal::metres(metres).ticks();
    return (ticks + (ticks < 0 ? -5000 : 5000)) / 10000;
}

bool usable(EastNorth at) {
    return std::fabs(at.e) <= Decimal::limit_metres && std::fabs(at.n) <= Decimal::limit_metres;
}

struct Range {
    std::int64_t low = INT64_MAX, high = INT64_MIN;
    void take(std::int64_t value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
    // Nothing taken has no width: there is nothing that could be too wide.
    std::int64_t width() const { return high < low ? 0 : high - low; }
};

struct Ranked {
    std::uint64_t rank;
    std::int32_t spot;
    bool operator<(const Ranked& other) const {
        return rank != other.rank ? rank < other.rank : spot < other.spot;
    }
};

}  // namespace

Place Grid::operator()(EastNorth at) const {
    return {static_cast<std::int32_t>(millimetres(at.e) - e),
            static_cast<std::int32_t>(millimetres(at.n) - n)};
}

// Quarter by quarter: which one in the order of the curve, then the frame of that quarter.
std::uint64_t Grid::rank(Place at) const {
    std::uint64_t found = 0;
    auto x = static_cast<std::uint32_t>(at.e), y = static_cast<std::uint32_t>(at.n);
    for (int bit = bits - 1; bit >= 0; --bit) {
        const std::uint32_t east = x >> bit & 1, north = y >> bit & 1;
        found = found << 2 | ((3 * east) ^ north);
        if (north != 0) continue;
        if (east != 0) {
            x = ~x;
            y = ~y;
        }
        std::swap(x, y);
    }
    return found;
}

Result<Grid> grid_around(const SurfaceInput& input) {
    Range e, n;
    const auto take = [&](EastNorth at) {
        if (!usable(at)) return false;
        e.take(millimetres(at.e));
        n.take(millimetres(at.n));
        return true;
    };
    bool good = true;
    for (const SpotLevel& spot : input.spots) good = good && take({spot.e, spot.n});
    for (const EastNorth& corner : input.inside) good = good && take(corner);
    const std::int64_t widest = std::max(e.width(), n.width());
    if (!good || widest >= largest_coordinate)
        return finding(Code::GroundTooWide, {}, "Spots or boundary reach over more than 1,000 km");
    return Grid{e.low, n.low, static_cast<int>(std::bit_width(static_cast<std::uint64_t>(widest)))};
}

std::vector<std::int32_t> set_vertices(const SurfaceInput& input, const Grid& grid, Triangulation& ground) {
    const std::size_t count = input.spots.size();
    std::vector<Ranked> order(count);
    for (std::size_t i = 0; i < count; ++i) {
        const SpotLevel& spot = input.spots[i];
        order[i] = {grid.rank(grid({spot.e, spot.n})), static_cast<std::int32_t>(i)};
    }
    std::sort(order.begin(), order.end());
    ground.origin_e = static_cast<double>(grid.e) / 1000;
    ground.origin_n = static_cast<double>(grid.n) / 1000;
    ground.place.reserve(count);
    ground.level.reserve(count);
    ground.spot.reserve(count);
    std::vector<std::int32_t> vertex_of(count);
    for (std::size_t i = 0; i < count; ++i) {
        const SpotLevel& spot = input.spots[index(order[i].spot)];
        if (i > 0 && order[i].rank == order[i - 1].rank)
            ground.together.push_back({ground.spot.back(), order[i].spot});
        else {
            ground.place.push_back(grid({spot.e, spot.n}));
            ground.level.push_back(spot.level);
            ground.spot.push_back(order[i].spot);
        }
        vertex_of[index(order[i].spot)] = static_cast<std::int32_t>(ground.place.size() - 1);
    }
    std::sort(ground.together.begin(), ground.together.end(), [](const Together& a, const Together& b) {
        return a.kept != b.kept ? a.kept < b.kept : a.left_out < b.left_out;
    });
    return vertex_of;
}

}  // namespace fallwright::ground
