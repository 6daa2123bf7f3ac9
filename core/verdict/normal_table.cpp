#include "verdict/normal_table.h"

#include <algorithm>
#include <cmath>

#include "verdict/within.h"

namespace fallwright {

namespace {

constexpr double root_of_two_pi = 2.5066282746310002;
constexpr double p_steps = 2048;
constexpr int quantile_steps = 2;  // Newton, from a straight line over a piece: 1e-12

double density(double x) {
    return std::exp(-x * x / 2) / root_of_two_pi;
}

}  // namespace

NormalTable::NormalTable() {
    const auto count = static_cast<std::size_t>(2 * reach * per_unit);
    pieces_.reserve(count);
    double y0 = normal_cdf(-reach);
    double d0 = density(-reach) / per_unit;
    for (std::size_t i = 1; i <= count; ++i) {
        const double x = static_cast<double>(i) / per_unit - reach;
        const double y1 = normal_cdf(x);
        const double d1 = density(x) / per_unit;
        pieces_.push_back({y0, d0, 3 * (y1 - y0) - 2 * d0 - d1, 2 * (y0 - y1) + d0 + d1});
        y0 = y1;
        d0 = d1;
    }
    std::size_t piece = 0;
    for (int step = 0; step <= static_cast<int>(p_steps / 2) + 1; ++step) {
        while (piece + 1 < pieces_.size() && pieces_[piece + 1][0] <= step / p_steps) ++piece;
        starts_.push_back(piece);
    }
}

double NormalTable::quantile(double p) const {
    return p > 0.5 ? -lower_quantile(1 - p) : lower_quantile(p);
}

// The last piece of the lower half that begins at p or below.
std::size_t NormalTable::piece_of(double p) const {
    const auto step = static_cast<std::size_t>(p * p_steps);
    const auto begins_at_or_below = [p](const Piece& c) { return c[0] <= p; };
    const auto from = pieces_.begin() + static_cast<std::ptrdiff_t>(starts_[step]);
    const auto to = pieces_.begin() + static_cast<std::ptrdiff_t>(starts_[step + 1] + 1);
    return static_cast<std::size_t>(std::partition_point(from, to, begins_at_or_below) - pieces_.begin()) - 1;
}

double NormalTable::lower_quantile(double p) const {
    if (!(p > pieces_.front()[0])) return -reach;
    const std::size_t cell = piece_of(p);
    const Piece& piece = pieces_[cell];
    double share = (p - piece[0]) / (value(piece, 1) - piece[0]);
    for (int i = 0; i < quantile_steps; ++i) share -= (value(piece, share) - p) / slope(piece, share);
    return (static_cast<double>(cell) + share) / per_unit - reach;
}

}  // namespace fallwright
