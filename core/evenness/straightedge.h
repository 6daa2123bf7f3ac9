// straightedge: gaps under a straightedge laid on a row of readings. Inside evenness only.
//
// A rigid edge of length L laid on the surface, not levelled, rests on two high spots: the gap at a reading i
// is how far it lies under the straight between a and b, a < i < b, largest over all a, b that are no farther
// apart than L:
//   gap_i = max of ((x_b - x_i) h_a + (x_i - x_a) h_b) / (x_b - x_a) - h_i,  0 where that is negative
// which is the distance under the upper hull of the readings, largest over all places of the edge.
//
// Cost: readings under one edge, for each reading.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace fallwright {

// A row of readings: positions rising, by at least least_chainage.
struct RowLine {
    std::vector<double> x, h;
};

// A reading against the straight between two others; a == b: it has none.
struct Rest {
    std::size_t a = 0, b = 0;
    double gap = 0;  // how far it lies under that straight, metres
};

// How far reading i lies under the straight from a to b; negative: above.
double under(const RowLine& row, std::size_t a, std::size_t i, std::size_t b);

// By reading. A reading that is touched has gap 0 and, where nothing lies under it anywhere, no rests.
std::vector<Rest> gaps_under(const RowLine& row, double length);

// By reading, the worst as a share of limit(distance of a and b): pairs of high spots that see each other
// over all between (gap), and pairs equally far from i, in number and within 1 % in distance (either way).
// Pairs farther apart than `longest` are not looked at. False, and nothing, where more than most_between
// readings lie under it.
constexpr std::size_t most_between = 120;
bool worst_spots(const RowLine& row, double longest, const std::function<double(double)>& limit,
                 std::vector<Rest>& worst);

}  // namespace fallwright
