// From a problem to its solution: order, factorise, two equal steps, statistics.
#include <algorithm>
#include <cmath>
#include <utility>

#include "adjust/adjust.h"
#include "adjust/factor.h"
#include "base/stable_order.h"

namespace fallwright::adjust {
namespace {

// For the products of weak directions, which few problems have.
std::vector<double> room_for(const ScaledRows& rows, const Ldlt& l) {
    return std::vector<double>(l.modes.empty() ? 0 : rows.order.size(), 0.0);
}

// Corrections and residuals, improved step by step. Residuals are always taken from the rows as given, so the
// second step removes what the first lost in the factorisation.
class Estimate {
  public:
    Estimate(const ScaledRows& rows, const Ldlt& l)
        : rows_(rows), l_(l), x_(rows.order.size(), 0.0), misfit_(rows.rows()), scratch_(room_for(rows, l)) {
        take_misfits();
    }
    void step();
    std::vector<double> take_x() { return std::move(x_); }
    const std::vector<double>& misfit() const { return misfit_; }
    std::vector<double> take_misfit() { return std::move(misfit_); }

  private:
    void take_misfits();
    double prior_pull(Column at) const;
    double weak_step(const Mode& mode);

    const ScaledRows& rows_;
    const Ldlt& l_;
    std::vector<double> x_;       // per column
    std::vector<double> misfit_;  // per row: y - computed, not whitened
    std::vector<double> scratch_;
};

void Estimate::take_misfits() {
    const Problem& problem = *rows_.problem;
    for (std::size_t i = 0; i < misfit_.size(); ++i) {
        double rest = problem.y[i];
        for (std::size_t p = problem.start[i]; p < problem.start[i + 1]; ++p)
            rest -= problem.coefficient[p] * x_[problem.column[p]];
        misfit_[i] = rest;
    }
}

// What a prior adds to the right-hand side of the scaled normal equations.
double Estimate::prior_pull(Column at) const {
    const Column column = rows_.order[at];
    return rows_.prior[at] * ((rows_.problem->prior_value[column] - x_[column]) / rows_.scale[at]);
}

// How far to go along a weak direction, from the rows' products with it.
double Estimate::weak_step(const Mode& mode) {
    double pull = 0;
    for_each_row(rows_, mode, scratch_,
                 [&](RowIndex row, double product) { pull += product * misfit_[row] * rows_.whitener[row]; });
    for (std::size_t k = 0; k < mode.z.size(); ++k) pull += mode.z[k] * prior_pull(mode.place[k]);
    return pull / mode.stiffness;
}

void Estimate::step() {
    std::vector<double> move(x_.size());
    for (std::size_t k = 0; k < move.size(); ++k) move[k] = prior_pull(static_cast<Column>(k));
    for (std::size_t i = 0; i < misfit_.size(); ++i) {
        const auto places = rows_.places(i);
        const auto values = rows_.values(i);
        const double whitened = misfit_[i] * rows_.whitener[i];
        for (std::size_t p = 0; p < places.size(); ++p) move[places[p]] += values[p] * whitened;
    }
    l_.solve_strong(move);
    for (const Mode& mode : l_.modes) {
        if (mode.null()) continue;
        const double length = weak_step(mode);
        for (std::size_t k = 0; k < mode.z.size(); ++k) move[mode.place[k]] += length * mode.z[k];
    }
    for (std::size_t k = 0; k < move.size(); ++k) x_[rows_.order[k]] += move[k] * rows_.scale[k];
    take_misfits();
}

// The null vector in the caller's columns, its largest component made 1. The first of equally large ones
// decides, so that rounding does not choose the sign.
NullVector null_vector(const ScaledRows& rows, const Mode& mode) {
    const double scaled_most = mode.largest();
    NullVector result;
    for (std::size_t k = 0; k < mode.z.size(); ++k) {
        if (std::abs(mode.z[k]) <= component_limit * scaled_most) continue;
        const Column at = mode.place[k];
        result.moves.push_back({rows.order[at], mode.z[k] * rows.scale[at]});
    }
    std::sort(result.moves.begin(), result.moves.end(),
              [](const Term& a, const Term& b) { return a.column < b.column; });
    double most = 0;
    for (const Term& move : result.moves) most = std::max(most, std::abs(move.coefficient));
    const auto leader = std::find_if(result.moves.begin(), result.moves.end(), [&](const Term& move) {
        return std::abs(move.coefficient) > (1.0 - component_limit) * most;
    });
    const double largest = leader->coefficient;
    for (Term& move : result.moves) move.coefficient /= largest;
    return result;
}

void take_nulls(const ScaledRows& rows, const Ldlt& l, Solution& solution) {
    for (const Mode& mode : l.modes)
        if (mode.null()) solution.nulls.push_back(null_vector(rows, mode));
    sort_stably(solution.nulls, [](const NullVector& a, const NullVector& b) {
        return a.moves.front().column < b.moves.front().column;
    });
}

void count(const ScaledRows& rows, const Ldlt& l, Solution& solution) {
    const Problem& problem = *rows.problem;
    std::int64_t carried = 0, priors = 0, free = 0;
    for (Column at = 0; at < rows.positions(); ++at) {
        if (!rows.carried[at]) continue;
        ++carried;
        if (rows.prior[at] > 0) ++priors;
    }
    for (const Mode& mode : l.modes)
        if (mode.null() && rows.carried[mode.pivot()]) ++free;
    solution.observations = static_cast<std::int64_t>(problem.rows()) + problem.private_columns + priors;
    solution.unknowns = carried + problem.private_columns;
    solution.dof = solution.observations - (solution.unknowns - free);
}

// Sum over rows of t^2 / V and over priors; with V = sd^2 + folded the private unknowns and their priors are
// in.
double chi2_of(const ScaledRows& rows, const std::vector<double>& misfit, const std::vector<double>& x) {
    const Problem& problem = *rows.problem;
    double sum = 0;
    for (std::size_t i = 0; i < problem.rows(); ++i) {
        const double t = misfit[i] * rows.whitener[i];
        sum += t * t;
    }
    for (std::size_t j = 0; j < problem.columns(); ++j) {
        if (problem.prior_sd[j] == 0) continue;
        const double t = (problem.prior_value[j] - x[j]) / problem.prior_sd[j];
        sum += t * t;
    }
    return sum;
}

// Per row: the variance of its computed value against its V.
std::vector<double> leverages(const ScaledRows& rows, const Factor& factor) {
    std::vector<double> result(rows.rows());
    for (std::size_t i = 0; i < result.size(); ++i) result[i] = factor.strong_variance(rows, i);
    std::vector<double> scratch = room_for(rows, factor.l());
    for (const Mode& mode : factor.l().modes) {
        if (mode.null()) continue;
        for_each_row(rows, mode, scratch, [&](RowIndex row, double product) {
            result[row] += product * product / mode.stiffness;
        });
    }
    return result;
}

// The row's own share of its residual and of its redundancy: sd^2 / V of each (adjust.h, private unknowns).
void take_rows(const ScaledRows& rows, const Factor& factor, Estimate& estimate, Solution& solution) {
    const Problem& problem = *rows.problem;
    solution.redundancy = leverages(rows, factor);
    solution.residual = estimate.take_misfit();
    for (std::size_t i = 0; i < problem.rows(); ++i) {
        const double own = problem.sd[i] * problem.sd[i];
        const double share = own / (own + problem.folded[i]);
        const double redundancy = (1.0 - solution.redundancy[i]) * share;
        solution.residual[i] *= share;
        solution.redundancy[i] = redundancy < redundancy_limit ? 0.0 : std::min(redundancy, 1.0);
    }
}

}  // namespace

Solution solve(const Problem& problem) {
    Incidence incidence = incidence_of(problem);
    Tree tree = tree_of(problem, incidence, elimination_order(problem, incidence));
    ScaledRows rows = scale_rows(problem, std::move(incidence), std::move(tree.order));
    Ldlt ldlt = factorise(rows, tree);
    rows.incidence = {};
    const auto factor = std::make_shared<const Factor>(rows, std::move(tree), std::move(ldlt));

    Estimate estimate(rows, factor->l());
    estimate.step();
    estimate.step();

    Solution solution;
    take_nulls(rows, factor->l(), solution);
    count(rows, factor->l(), solution);
    solution.x = estimate.take_x();
    solution.chi2 = chi2_of(rows, estimate.misfit(), solution.x);
    take_rows(rows, *factor, estimate, solution);
    solution.variance.resize(problem.columns());
    for (std::size_t j = 0; j < problem.columns(); ++j)
        solution.variance[j] = factor->variance(static_cast<Column>(j));
    solution.factor = factor;
    return solution;
}

}  // namespace fallwright::adjust
