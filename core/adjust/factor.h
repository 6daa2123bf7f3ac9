// What a Solution keeps to answer for variances and covariances later. Scaled unknowns by position
// throughout.
#pragma once

#include <span>
#include <vector>

#include "adjust/adjust.h"
#include "adjust/ldlt.h"
#include "adjust/modes.h"
#include "adjust/selected_inverse.h"

namespace fallwright::adjust {

// Asked by one thread at a time: the solves share their working memory.
class Factor {
  public:
    // Inverts on the pattern of L. The rows are not kept.
    Factor(const ScaledRows& rows, Tree tree, Ldlt ldlt);

    const Ldlt& l() const { return l_; }
    // Whether no null vector moves the column.
    bool determined(Column column) const;
    // In the caller's units; NaN where undetermined.
    double variance(Column column) const;
    // Element of the inverse without a solve, NaN where undetermined; false where L has no place for it.
    bool element(Column a, Column b, double& value) const;
    // Covariance of two sums of columns, by a forward solve for each. NaN where one moves along a null
    // vector.
    double covariance(std::span<const Term> a, std::span<const Term> b) const;
    // L^-1 times the terms, each position by the root of its inverse pivot.
    std::vector<Part> parts(std::span<const Term> terms) const;
    // Of a sum with every column, in the caller's units.
    std::vector<double> covariances_with(std::span<const Term> terms) const;
    // Variance of a row's computed value against the row's own V, without what the weak directions add.
    double strong_variance(const ScaledRows& rows, std::size_t row) const;

  private:
    // Entries that are not 0, positions ascending.
    struct Sparse {
        std::vector<Column> position;
        std::vector<double> value;
    };
    // y of the terms, over their reach: the positions on the paths from them to the root.
    Sparse forward(std::span<const Term> terms) const;
    std::vector<Column> reach(std::span<const Term> terms) const;
    // Whether a null vector changes the sum.
    bool moves(std::span<const Term> terms) const;
    // An element by positions, the weak directions added to its strong part.
    double element_at(double strong, Column a, Column b) const;

    std::vector<Column> position_;  // per column
    std::vector<double> scale_;     // per position
    std::vector<Node> parent_;      // per position
    Ldlt l_;
    SelectedInverse inverse_;
    ModeIndex modes_;
    mutable std::vector<double> work_;  // per position, made by the first forward(); 0 between calls
};

}  // namespace fallwright::adjust
