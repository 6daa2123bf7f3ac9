#include "verdict/factors.h"

#include <algorithm>
#include <cmath>

namespace fallwright {

namespace {

constexpr double most_change = 1e-5;  // of the joint probability, by what is left out
constexpr double four_pi = 12.566370614359172;
// Noise of its own that a quantity keeps at least, as a share of its variance: without any the product would
// jump, and points could not find where.
constexpr double least_own = 1e-6;
// Equal quantities are told apart by their order, not by the last bits of a mathematics library.
constexpr double clearly = 1e-9;
constexpr double rounding = 1e-14;  // shared variance that is none

class Reducer {
  public:
    explicit Reducer(std::span<const LimitedSum> sums)
        : sums_(sums), weight_(sums.size()), rest_(sums.size()) {
        factors_.own.resize(sums.size());
        split();
    }

    Factors run(std::size_t most) {
        while (factors_.pivots.size() < most && find_pivot()) add_factor();
        finish();
        return std::move(factors_);
    }

  private:
    // Own noise from causes that touch one quantity only; the others are shared.
    void split() {
        std::int32_t last = 0;
        for (const LimitedSum& sum : sums_) {
            if (!sum.parts.empty()) last = std::max(last, sum.parts.back().source);
        }
        touched_.assign(static_cast<std::size_t>(last) + 1, 0);
        for (const LimitedSum& sum : sums_) {
            for (const adjust::Part& part : sum.parts) ++touched_[static_cast<std::size_t>(part.source)];
        }
        for (std::size_t i = 0; i < sums_.size(); ++i) split(i);
        row_.assign(touched_.size(), 0.0);
    }

    void split(std::size_t i) {
        double own = 0;
        double shared = 0;
        for (const adjust::Part& part : sums_[i].parts)
            (is_shared(part) ? shared : own) += part.coefficient * part.coefficient;
        const double variance = own + shared;
        sd_.push_back(std::sqrt(variance));
        factors_.own[i] = std::max(own / variance, least_own);
        rest_[i] = shared / variance;
        factors_.low.push_back(sums_[i].limits.below / sd_[i]);
        factors_.high.push_back(sums_[i].limits.above / sd_[i]);
        weight_[i] = nearness(factors_.low[i]) + nearness(factors_.high[i]);
    }

    bool is_shared(const adjust::Part& part) const {
        return touched_[static_cast<std::size_t>(part.source)] > 1;
    }
    static double nearness(double limit) { return std::exp(-limit * limit / 4); }

    // The quantity whose rest matters most; false once all of them together hardly do.
    bool find_pivot() {
        double sum = 0;
        double largest = 0;
        for (std::size_t i = 0; i < rest_.size(); ++i) {
            if (rest_[i] <= rounding) continue;
            const double score = weight_[i] * std::sqrt(rest_[i]);
            sum += score;
            if (score > largest * (1 + clearly)) {
                largest = score;
                pivot_ = i;
            }
        }
        return largest > 0 && sum * sum / four_pi > most_change;
    }

    void add_factor() {
        const std::vector<double> column = column_of(pivot_);
        for (std::size_t i = 0; i < rest_.size(); ++i)
            rest_[i] = i == pivot_ ? 0 : std::max(0.0, rest_[i] - column[i] * column[i]);
        factors_.pivots.push_back(pivot_);
        columns_.push_back(column);
    }

    // One column of the Cholesky factor of the shared correlations.
    std::vector<double> column_of(std::size_t pivot) {
        const double root = std::sqrt(rest_[pivot]);
        for (const adjust::Part& part : sums_[pivot].parts) {
            if (is_shared(part)) row_[static_cast<std::size_t>(part.source)] = part.coefficient / sd_[pivot];
        }
        std::vector<double> column(rest_.size(), 0.0);
        for (std::size_t i = 0; i < rest_.size(); ++i) {
            for (const adjust::Part& part : sums_[i].parts)
                column[i] += part.coefficient * row_[static_cast<std::size_t>(part.source)];
            column[i] /= sd_[i];
        }
        for (const adjust::Part& part : sums_[pivot].parts) row_[static_cast<std::size_t>(part.source)] = 0;
        for (const std::vector<double>& before : columns_) {
            for (std::size_t i = 0; i < rest_.size(); ++i) column[i] -= before[i] * before[pivot];
        }
        for (double& each : column) each /= root;
        for (const std::size_t earlier : factors_.pivots) column[earlier] = 0;
        column[pivot] = root;
        return column;
    }

    void finish() {
        factors_.rank = columns_.size();
        factors_.load.resize(sums_.size() * factors_.rank);
        for (std::size_t i = 0; i < sums_.size(); ++i) {
            factors_.own[i] = std::sqrt(factors_.own[i] + rest_[i]);
            for (std::size_t k = 0; k < factors_.rank; ++k)
                factors_.load[i * factors_.rank + k] = columns_[k][i];
        }
    }

    std::span<const LimitedSum> sums_;
    Factors factors_;
    std::vector<double> sd_, weight_;
    std::vector<double> rest_;  // shared variance not yet in a factor
    std::size_t pivot_ = 0;
    std::vector<int> touched_;  // per source: how many quantities it reaches
    std::vector<double> row_;   // per source: of the pivot in hand
    std::vector<std::vector<double>> columns_;
};

}  // namespace

Factors factors_of(std::span<const LimitedSum> sums, std::size_t most) {
    return Reducer(sums).run(most);
}

}  // namespace fallwright
