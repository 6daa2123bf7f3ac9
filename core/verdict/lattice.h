// lattice: points that fill a cube evenly, the same ones every time. Inside verdict only.
//
// Point j of a rank-1 lattice sequence in base 2 has the coordinates fraction(v(j) g_d + shift_d), v the
// radical inverse: every first 2^m of them are a lattice, up to 2^17. The generating numbers g were found by
// component-by-component search with equal small weights (tools/lattice.py does it again), so that all
// projections on few coordinates are good: what lines have in common comes in groups of a few. Coordinates
// are folded by |2 x - 1|, so that the integrand goes on smoothly at the border; the shifts are square roots
// of primes. Theory: Cools, Kuo and Nuyens 2006, Hickernell 2002, from memory. Only + - x / and sqrt, so the
// same bits in every build.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace fallwright {

constexpr std::size_t most_dimensions = 192;
constexpr std::uint32_t most_points = 131072;

// Points side by side, coordinate by coordinate.
constexpr std::size_t lanes = 8;
using Lanes = std::array<double, lanes>;

class Lattice {
  public:
    explicit Lattice(std::size_t dimensions);  // at most most_dimensions

    // The next `lanes` points; coordinates in 0..1.
    void next(std::vector<Lanes>& points);

  private:
    std::vector<double> shift_;
    std::uint32_t next_ = 0;
};

}  // namespace fallwright
