// normal_table: the standard normal distribution and its quantiles, many times over. Inside verdict only.
//
// Cubic Hermite pieces of 1/64 between exact values and slopes: within 2e-10, and monotonic. erfc and exp are
// called once per piece only; everything after that is + - x /, so equal tables give equal bits.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace fallwright {

class NormalTable {
  public:
    NormalTable();

    // P(X <= x); 0 and 1 beyond +-reach.
    double cdf(double x) const {
        if (!(x > -reach)) return 0;
        if (x >= reach) return 1;
        const double place = (x + reach) * per_unit;
        const auto cell = static_cast<std::size_t>(place);
        return value(pieces_[cell], place - static_cast<double>(cell));
    }
    // x with cdf(x) = p; within +-reach.
    double quantile(double p) const;

    static constexpr double reach = 9;

  private:
    static constexpr double per_unit = 64;
    using Piece = std::array<double, 4>;  // by powers of the share of the piece, 0..1

    static double value(const Piece& c, double f) { return c[0] + f * (c[1] + f * (c[2] + f * c[3])); }
    static double slope(const Piece& c, double f) { return c[1] + f * (2 * c[2] + f * 3 * c[3]); }
    double lower_quantile(double p) const;
    std::size_t piece_of(double p) const;

    std::vector<Piece> pieces_;
    std::vector<std::size_t> starts_;  // per step of p: the piece where a search begins
};

}  // namespace fallwright
