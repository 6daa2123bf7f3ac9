// What a surface of many spot levels costs, on points that another program can be given too.
//
//   surface_cost points COUNT FILE   writes COUNT spots as pairs of doubles, east and north, whole
//   millimetres surface_cost time FILE           reads them; prints "triangles S volume S contours S":
//   seconds of processor time,
//                                    the best of some tries. Levels are rolling ground; the volume is to one
//                                    level, contours stand a tenth of a metre apart.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <string>
#include <vector>

#include "ground/contours.h"
#include "ground/prisms.h"
#include "ground/triangulation.h"

namespace {

using namespace fallwright;
using namespace fallwright::ground;

constexpr int tries = 3;
constexpr double every = 0.1, level = 50;

template <class Work>
double seconds_of(Work work) {
    double best = 1e9;
    for (int i = 0; i < tries; ++i) {
        const std::clock_t begin = std::clock();
        work();
        best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
    }
    return best;
}

// A spot a square metre, about, anywhere in a square.
int write_points(std::size_t count, const char* path) {
    std::uint64_t state = 20260504;
    const auto next = [&state] {
        state = state * 6364136223846793005U + 1442695040888963407U;
        return static_cast<double>(state >> 11) / 9007199254740992.0;
    };
    const double side = std::sqrt(static_cast<double>(count));
    std::ofstream out(path, std::ios::binary);
    for (std::size_t i = 0; i < 2 * count; ++i) {
        const double value = std::round(next() * side * 1000) / 1000;
        out.write(reinterpret_cast<const char*>(&value), sizeof value);
    }
    return out ? 0 : 2;
}

std::vector<SpotLevel> read_points(const char* path) {
    std::ifstream in(path, std::ios::binary);
    std::vector<SpotLevel> spots;
    double at[2];
    while (in.read(reinterpret_cast<char*>(at), sizeof at))
        spots.push_back({at[0], at[1], level + 0.5 * std::sin(at[0] / 60) + 0.4 * std::cos(at[1] / 45)});
    return spots;
}

int time_surface(const char* path) {
    SurfaceInput input;
    input.spots = read_points(path);
    Result<Triangulation> surface = triangulate(input);
    if (!surface) return 2;
    const double triangles = seconds_of([&] { surface = triangulate(input); });
    double net = 0;
    const double volume = seconds_of([&] {
        Prisms prisms = prisms_under(sheet_of(*surface));
        for (std::size_t i = 0; i < prisms.bases; ++i) prisms.height[i] -= level;
        prisms.settle();
        net = earthwork(prisms).net();
    });
    std::size_t lines = 0;
    const double contours = seconds_of([&] {
        const Result<std::vector<Decimal>> levels = contour_levels(*surface, Decimal::metres(every));
        lines = levels ? draw_contours(*surface, *levels).lines.size() : 0;
    });
    if (lines == 0 || !std::isfinite(net)) return 2;
    std::printf("triangles %.4f volume %.4f contours %.4f\n", triangles, volume, contours);
    return 0;
}

}  // namespace

int main(int count, char** arguments) {
    if (count == 4 && std::string(arguments[1]) == "points")
        return write_points(std::stoul(arguments[2]), arguments[3]);
    if (count == 3 && std::string(arguments[1]) == "time") return time_surface(arguments[2]);
    return 2;
}
