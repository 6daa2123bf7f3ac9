// What a Solution keeps to answer for variances and covariances later. Scaled unknowns by position throughout.
#pragma once

#include <span>
#include <vector>

#include "adjust/adjust.h"
#include "adjust/ldlt.h"
#include "adjust/modes.h"
#include "adjust/selected_inverse.h"

namespace fallwright::adjust {

class Factor {
  public:
    Factor(const ScaledRows& rows, Tree tree, Ldlt ldlt);

    const Ldlt& l() const { return l_; }
    bool determined(Column column) const;
    double variance(Column column) const;
    // Element of the inverse without a solve, NaN where undetermined; null where L has no place for it.
    bool element(Column a, Column b, double& value) const;
    double covariance(std::span<const Term> a, std::span<const Term> b) const;
    // The part of the variance of a row's sum that the strong pivots give, against the row's own variance.
    double strong_variance(const ScaledRows& rows, std::size_t row) const;

  private:
    struct Sparse {
        std::vector<Column> position;
        std::vector<double> value;
    };
    Sparse forward(std::span<const Term> terms) const;
    std::vector<Column> reach(std::span<const Term> terms) const;
    bool moves(std::span<const Term> terms) const;
    double element_at(double strong, Column a, Column b) const;

    std::vector<Column> position_;
    std::vector<double> scale_;
    std::vector<Node> parent_;
    Ldlt l_;
    SelectedInverse inverse_;
    ModeIndex modes_;
};

}  // namespace fallwright::adjust
