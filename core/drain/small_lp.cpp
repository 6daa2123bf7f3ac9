#include "drain/small_lp.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fallwright::drain {

namespace {

constexpr double small = 1e-11;       // pivots and prices below this are rounding
constexpr std::size_t patience = 50;  // steps for each unknown and limit before giving up

// A square matrix by rows, and solutions of it by Gaussian elimination with the largest pivots.
class Square {
  public:
    explicit Square(std::size_t size) : size_(size), cells_(size * size, 0.0) {}
    double& at(std::size_t row, std::size_t column) { return cells_[row * size_ + column]; }
    double at(std::size_t row, std::size_t column) const { return cells_[row * size_ + column]; }

    // Empty where the matrix has no inverse.
    std::vector<double> solve(std::vector<double> right) const {
        Square work = *this;
        for (std::size_t column = 0; column < size_; ++column) {
            if (!work.pivot(column, right)) return {};
        }
        for (std::size_t row = size_; row-- > 0;) {
            for (std::size_t column = row + 1; column < size_; ++column)
                right[row] -= work.at(row, column) * right[column];
            right[row] /= work.at(row, row);
        }
        return right;
    }

    Square transposed() const {
        Square turned(size_);
        for (std::size_t row = 0; row < size_; ++row) {
            for (std::size_t column = 0; column < size_; ++column) turned.at(column, row) = at(row, column);
        }
        return turned;
    }

  private:
    bool pivot(std::size_t column, std::vector<double>& right) {
        std::size_t largest = column;
        for (std::size_t row = column + 1; row < size_; ++row) {
            if (std::fabs(at(row, column)) > std::fabs(at(largest, column))) largest = row;
        }
        if (std::fabs(at(largest, column)) < small) return false;
        for (std::size_t i = 0; i < size_; ++i) std::swap(at(column, i), at(largest, i));
        std::swap(right[column], right[largest]);
        for (std::size_t row = column + 1; row < size_; ++row) {
            const double factor = at(row, column) / at(column, column);
            if (factor == 0) continue;
            for (std::size_t i = column; i < size_; ++i) at(row, i) -= factor * at(column, i);
            right[row] -= factor * right[column];
        }
        return true;
    }

    std::size_t size_;
    std::vector<double> cells_;
};

double along(const Limit& limit, const std::vector<double>& x) {
    const double first = limit.first * x[limit.unknown];
    return limit.second == 0 ? first : first + limit.second * x[limit.unknown + 1];
}

class Simplex {
  public:
    Simplex(const std::vector<double>& gain, const std::vector<Limit>& limits, std::vector<std::size_t> tight)
        : gain_(gain), limits_(limits), tight_(std::move(tight)) {}

    LpCorner run() {
        const std::size_t most_steps = patience * (gain_.size() + limits_.size());
        for (std::size_t step = 0; step < most_steps; ++step) {
            std::sort(tight_.begin(), tight_.end());
            if (!stand()) return {};
            const std::size_t leaves = leaving();
            if (leaves == tight_.size()) return {x_, tight_, price_, true};
            const std::size_t comes = coming(away_from(leaves));
            if (comes == limits_.size()) return {};
            tight_[leaves] = comes;
        }
        return {};
    }

  private:
    Square matrix() const {
        Square rows(tight_.size());
        for (std::size_t i = 0; i < tight_.size(); ++i) {
            const Limit& limit = limits_[tight_[i]];
            rows.at(i, limit.unknown) = limit.first;
            if (limit.second != 0) rows.at(i, limit.unknown + 1) = limit.second;
        }
        return rows;
    }

    // The corner where all of tight_ meet, and what each of them costs.
    bool stand() {
        std::vector<double> most;
        most.reserve(tight_.size());
        for (const std::size_t index : tight_) most.push_back(limits_[index].most);
        x_ = matrix().solve(std::move(most));
        price_ = matrix().transposed().solve(gain_);
        return !x_.empty() && !price_.empty();
    }

    // The first limit that it pays to leave; tight_ stands in order, so the smallest index.
    std::size_t leaving() const {
        const auto pays = [](double price) { return price < -small; };
        return static_cast<std::size_t>(std::find_if(price_.begin(), price_.end(), pays) - price_.begin());
    }

    std::vector<double> away_from(std::size_t leaves) const {
        std::vector<double> step(tight_.size(), 0.0);
        step[leaves] = -1;
        return matrix().solve(std::move(step));
    }

    // The limit met first on the way; limits_.size() where there is none.
    std::size_t coming(const std::vector<double>& way) const {
        std::size_t met = limits_.size();
        double least = 0;
        for (std::size_t i = 0; i < limits_.size(); ++i) {
            const double speed = along(limits_[i], way);
            if (speed < small || std::binary_search(tight_.begin(), tight_.end(), i)) continue;
            const double far = std::max(0.0, (limits_[i].most - along(limits_[i], x_)) / speed);
            if (met == limits_.size() || far < least) {
                met = i;
                least = far;
            }
        }
        return met;
    }

    const std::vector<double>& gain_;
    const std::vector<Limit>& limits_;
    std::vector<std::size_t> tight_;
    std::vector<double> x_, price_;
};

}  // namespace

LpCorner best_corner(const std::vector<double>& gain, const std::vector<Limit>& limits,
                     std::vector<std::size_t> tight) {
    return Simplex(gain, limits, std::move(tight)).run();
}

}  // namespace fallwright::drain
