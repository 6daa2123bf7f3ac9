// adjust: sparse linear least squares with priors. It knows rows, columns and uncertainties, and no
// levelling.
//
// Model
//   Row i:     sum_j a_ij x_j = y_i + noise,  noise ~ N(0, sd_i^2 + folded_i)
//   Prior j:   x_j = p_j + noise,             noise ~ N(0, psd_j^2)        one more observation of its column
// x are corrections to approximate values that the caller keeps, so they should be small. sds are a priori
// and are never scaled by how well the rows agree. A column that the caller wants fixed is not added at all:
// no large weights.
//
// Private unknowns
//   An unknown with a prior that one single row carries (its coefficient 1 or -1) need not be a column: the
//   caller adds its prior variance to `folded` of that row and counts it in `private_columns`. residual,
//   redundancy, w and detectable are then still those of the row's own noise, as if the unknown were a
//   column: with V = sd^2 + folded, t the row's full residual and R its redundancy against V,
//       residual = t sd^2 / V,   redundancy = R sd^2 / V,   w = residual / (sd sqrt(redundancy)) = t / sqrt(V
//       R).
//
// Rank
//   The normal matrix is scaled to unit diagonal; a pivot under pivot_limit marks a null vector z (N z = 0),
//   the pivot's unknown stays at 0, and every unknown that moves along z is undetermined: its variance is
//   NaN. Everything else stands. Rows are always estimable: residuals and redundancies are right whatever the
//   rank.
//
//   A pivot is what nothing later holds of an unknown: 1e-10 is a benchmark known to a hundred metres against
//   readings good to a millimetre.
//
// Accuracy
//   Corrections within 1e-10 of a dense orthogonal solution, standard deviations within 1e-8 relative, for
//   networks as they come from books (tests/adjust compares with SciPy), and for lines of a million steps.
//   One step of refinement on the rows is always made; pivots that lose digits are worked out again from the
//   rows.
//
// Cost
//   Ordering: unknowns with at most two neighbours first, then minimum degree, dense columns (errors an
//   instrument shares) last. One factorisation; variances and redundancies from the selected inverse, never a
//   dense one. A fraction of a microsecond and a few hundred bytes a row for lines;
//   docs/methods/adjustment.md has figures. Same bits natively and in WebAssembly: only + - x / and sqrt.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace fallwright::adjust {

using Column = std::int32_t;

constexpr double pivot_limit = 1e-10;
// Redundancy under this is 0: the row is not checked by anything.
constexpr double redundancy_limit = 1e-6;

struct Term {
    Column column;
    double coefficient;
};

class Problem {
  public:
    // A new unknown without a prior. Columns count from 0.
    Column add_column();
    // The observation x = value +- sd of one column, sd > 0, at most one per column.
    void add_prior(Column column, double value, double sd);
    // A row. Terms name existing columns, each at most once; sd > 0; folded >= 0 (a variance). Returns its
    // index from 0.
    std::size_t add_row(std::span<const Term> terms, double y, double sd, double folded = 0,
                        int private_columns = 0);
    void reserve(std::size_t rows, std::size_t terms);
    // Gives back what was reserved for what did not come.
    void fit();

    std::size_t rows() const { return y.size(); }
    std::size_t columns() const { return prior_sd.size(); }

    // Rows in compressed form; prior_sd is 0 where a column has no prior.
    std::vector<std::size_t> start{0};
    std::vector<Column> column;
    std::vector<double> coefficient;
    std::vector<double> y, sd, folded;
    std::vector<double> prior_value, prior_sd;
    std::int64_t private_columns = 0;
};

// A direction in which the rows and priors leave the unknowns free, by ascending column. The largest
// component is 1 (the first of them, if several are as large); components that are rounding, under 1e-8 of
// the largest by their effect on the rows, are left out. A column that nothing carries is a null vector of
// its own.
struct NullVector {
    std::vector<Term> moves;
};

// What makes a sum of columns uncertain, in pieces: coefficient x an independent standard normal variable.
struct Part {
    std::int32_t source;  // numbered alike for all sums of one solution
    double coefficient;
};

class Factor;  // the factorised normal matrix

struct Solution {
    std::vector<double> x;          // per column
    std::vector<double> variance;   // per column; NaN where undetermined
    std::vector<NullVector> nulls;  // by their first column

    std::vector<double> residual;    // per row: y - computed, the row's own part
    std::vector<double> redundancy;  // per row, 0..1; 0 where under redundancy_limit

    // Counts as in the contract: rows + private columns + priors of columns that some row carries; columns
    // that some row carries + private columns. A row carries a column if its coefficient is not 0; a column
    // that no row carries is left out of both.
    std::int64_t observations = 0;
    std::int64_t unknowns = 0;
    std::int64_t dof = 0;  // observations - rank
    double chi2 = 0;       // over all observations, private ones included

    bool determined(Column column) const;
    // Variance of sum c_j x_j and covariance of two such sums; one sparse solve each, restricted to what the
    // terms reach. NaN where a sum moves along a null vector: a difference of two undetermined levels may
    // well be determined. A column may stand in several terms.
    double variance_of(std::span<const Term> terms) const;
    double covariance_of(std::span<const Term> a, std::span<const Term> b) const;
    // The sum's error in independent parts, by ascending source: the product of two sums' parts is their
    // covariance. For those who need many covariances among the same sums, or draw from them: one solve a
    // sum. Only for sums whose variance is not NaN.
    std::vector<Part> parts_of(std::span<const Term> terms) const;
    // Element of the inverse for two columns that some row carries together, without a solve; else by a
    // solve.
    double covariance_of(Column a, Column b) const;

    std::shared_ptr<const Factor> factor;
};

Solution solve(const Problem& problem);

}  // namespace fallwright::adjust
