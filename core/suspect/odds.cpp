#include "suspect/odds.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fallwright {

namespace {

// Solves a positive definite system of up to three in place by Cholesky; returns ln of the determinant.
// right: the right-hand side, then the solution; inverse: filled with the inverse's diagonal.
constexpr std::size_t most_columns = 3;
using Matrix = std::array<std::array<double, most_columns>, most_columns>;

double factorise(Matrix& a, std::size_t n) {
    double log_det = 0;
    for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t k = 0; k < j; ++k) a[j][j] -= a[j][k] * a[j][k];
        a[j][j] = std::sqrt(a[j][j]);
        log_det += 2 * std::log(a[j][j]);
        for (std::size_t i = j + 1; i < n; ++i) {
            for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
            a[i][j] /= a[j][j];
        }
    }
    return log_det;
}

std::array<double, most_columns> solve(const Matrix& l, std::array<double, most_columns> right,
                                       std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < i; ++k) right[i] -= l[i][k] * right[k];
        right[i] /= l[i][i];
    }
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t k = i + 1; k < n; ++k) right[i] -= l[k][i] * right[k];
        right[i] /= l[i][i];
    }
    return right;
}

}  // namespace

FoundSize odds_known(const Pull& found, double size) {
    return {size * found.pull - size * size * found.information / 2, size, 0};
}

FoundSize odds_free(const Pull& found, double sd) {
    const double stiff = found.information + 1 / (sd * sd);
    return {found.pull * found.pull / (2 * stiff) - std::log(1 + sd * sd * found.information) / 2,
            found.pull / stiff, 1 / std::sqrt(stiff)};
}

// The readings say nothing: the size believed most beforehand.
static FoundSize odds_unseen(const Sizes& sizes) {
    double all = 0;
    const Size* most = nullptr;
    for (const Size& each : sizes) {
        all += each.share;
        if (most == nullptr || each.share > most->share) most = &each;
    }
    if (most == nullptr) return {never, 0, 0};
    return {std::log(all), most->size, most->sd};
}

FoundSize odds_of(const Pull& found, const Sizes& sizes) {
    if (found.information == 0) return odds_unseen(sizes);
    const auto seen = [&found](const Size& size) {
        return size.free ? odds_free(found, size.sd) : odds_known(found, size.size);
    };
    if (sizes.count == 1) {
        FoundSize only = seen(sizes.all[0]);
        only.log_odds += std::log(sizes.all[0].share);
        return only;
    }
    constexpr double negligible = -40;  // beside the best, ln
    std::array<FoundSize, most_sizes> each;
    FoundSize best = {never, 0, 0};
    double highest = never, most_weight = never, sum = 0;
    for (std::size_t i = 0; i < sizes.count; ++i) {
        each[i] = seen(sizes.all[i]);
        highest = std::max(highest, each[i].log_odds);
    }
    for (std::size_t i = 0; i < sizes.count; ++i) {
        const double below = each[i].log_odds - highest;
        if (below < negligible) continue;
        const double weight = sizes.all[i].share * std::exp(below);
        sum += weight;
        if (weight > most_weight) best = each[i];
        most_weight = std::max(most_weight, weight);
    }
    best.log_odds = highest + std::log(sum);
    return best;
}

JointOdds odds_joint(std::span<const double> pull, std::span<const double> information,
                     std::span<const double> sd) {
    const std::size_t n = pull.size();
    Matrix stiff{};
    std::array<double, most_columns> right{};
    double log_sds = 0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) stiff[i][j] = information[i * n + j];
        stiff[i][i] += 1 / (sd[i] * sd[i]);
        right[i] = pull[i];
        log_sds += 2 * std::log(sd[i]);
    }
    const double log_det = factorise(stiff, n) + log_sds;
    const std::array<double, most_columns> size = solve(stiff, right, n);
    JointOdds joint;
    double most_moved = -1;
    for (std::size_t i = 0; i < n; ++i) {
        joint.found.log_odds += size[i] * pull[i] / 2;
        const double moved = std::fabs(size[i]) / sd[i];
        if (moved <= most_moved) continue;
        most_moved = moved;
        joint.which = i;
        std::array<double, most_columns> unit{};
        unit[i] = 1;
        joint.found.size = size[i];
        joint.found.sd = std::sqrt(solve(stiff, unit, n)[i]);
    }
    joint.found.log_odds -= log_det / 2;
    return joint;
}

void LogSum::add(double log_weight) {
    constexpr double negligible = -40;
    const double above = log_weight - highest_;
    if (above > 0) {
        sum_ = sum_ * std::exp(-above) + 1;
        highest_ = log_weight;
    } else if (above > negligible) {
        sum_ += std::exp(above);
    }
}

double LogSum::log() const {
    return highest_ + std::log(sum_);
}

}  // namespace fallwright
