#include "model/joint_prior.h"

#include <cmath>

namespace fallwright {

namespace {

// Covariance C = L L'. With z = L^-1 x independent, row k of L^-1 times L_kk is x_k less what the columns
// before say of it, with the sd L_kk.
class Conditions {
  public:
    explicit Conditions(const JointPrior& prior) : prior_(prior), size_(prior.columns.size()) {
        root_.assign(size_ * size_, 0);
        inverse_.assign(size_ * size_, 0);
        for (std::size_t k = 0; k < size_; ++k) add(k);
    }

    double sd(std::size_t k) const { return root_[k * size_ + k]; }
    double coefficient(std::size_t k, std::size_t j) const { return sd(k) * inverse_[k * size_ + j]; }
    // Whether k hangs on j at all; what is left by rounding does not count.
    bool hangs(std::size_t k, std::size_t j) const {
        constexpr double rounding = 1e-9;
        const double relative = coefficient(k, j) * std::sqrt(prior_.at(j, j) / prior_.at(k, k));
        return std::fabs(relative) > rounding;
    }

  private:
    void add(std::size_t k) {
        double left = prior_.at(k, k);
        for (std::size_t j = 0; j < k; ++j) {
            double sum = prior_.at(k, j);
            for (std::size_t i = 0; i < j; ++i) sum -= root_[k * size_ + i] * root_[j * size_ + i];
            root_[k * size_ + j] = sum / root_[j * size_ + j];
            left -= root_[k * size_ + j] * root_[k * size_ + j];
        }
        root_[k * size_ + k] = std::sqrt(left);
        inverse_[k * size_ + k] = 1 / root_[k * size_ + k];
        for (std::size_t j = 0; j < k; ++j) {
            double sum = 0;
            for (std::size_t i = j; i < k; ++i) sum -= root_[k * size_ + i] * inverse_[i * size_ + j];
            inverse_[k * size_ + j] = sum / root_[k * size_ + k];
        }
    }

    const JointPrior& prior_;
    std::size_t size_;
    std::vector<double> root_, inverse_;  // lower triangles, row by row
};

}  // namespace

void add_joint_prior(const JointPrior& prior, adjust::Problem& problem) {
    const Conditions conditions(prior);
    std::vector<adjust::Term> terms;
    for (std::size_t k = 0; k < prior.columns.size(); ++k) {
        terms.assign({{prior.columns[k], 1}});
        for (std::size_t j = 0; j < k; ++j) {
            if (conditions.hangs(k, j)) terms.push_back({prior.columns[j], conditions.coefficient(k, j)});
        }
        if (terms.size() == 1) {
            problem.add_prior(prior.columns[k], 0, conditions.sd(k));
        } else {
            problem.add_row(terms, 0, conditions.sd(k));
        }
    }
}

}  // namespace fallwright
