#include "model/model.h"

#include <cmath>
#include <utility>

#include "model/build.h"

namespace fallwright {

namespace {

std::vector<adjust::Term> terms_of(const Model& model, std::span<const PointTerm> sum) {
    std::vector<adjust::Term> terms;
    for (const PointTerm& term : sum) {
        const adjust::Column column = model.level_columns[static_cast<std::size_t>(term.point)];
        if (column != no_column) terms.push_back({column, term.coefficient});
    }
    return terms;
}

constexpr double detectable_factor = 4.13;  // non-centrality for 0.1 % false alarms and 80 % power

// Rows of readings stand first in the problem, steps after them.
ReadingFit fit_of(const Model& model, std::size_t row, double sign) {
    ReadingFit fit;
    fit.residual = sign * model.solution.residual[row];
    fit.sd = model.problem.sd[row];
    fit.redundancy = model.solution.redundancy[row];
    const double root = std::sqrt(fit.redundancy);
    fit.w = fit.redundancy > 0 ? fit.residual / (fit.sd * root) : NAN;
    fit.detectable = fit.redundancy > 0 ? detectable_factor * fit.sd / root : NAN;
    return fit;
}

}  // namespace

ReadingFit Model::fit(std::size_t row) const {
    return fit_of(*this, row, sights.rows[row].terms.sign);
}

ReadingFit Model::step_fit(std::size_t step) const {
    return fit_of(*this, sights.rows.size() + step, 1);
}

double Model::variance_of(std::span<const PointTerm> sum) const {
    return solution.variance_of(terms_of(*this, sum));
}

double Model::covariance_of(std::span<const PointTerm> a, std::span<const PointTerm> b) const {
    return solution.covariance_of(terms_of(*this, a), terms_of(*this, b));
}

std::vector<adjust::Part> Model::parts_of(std::span<const PointTerm> sum) const {
    return solution.parts_of(terms_of(*this, sum));
}

std::unique_ptr<Model> build_model(const Book& book, const Figures& figures, const Where& where,
                                   CheckedInstruments checked) {
    auto model = std::make_unique<Model>(Points(book, figures));
    model->sights = prepare_sights(book, model->points, figures, where, std::move(checked));
    Build build{book, where, *model, Columns(book, model->sights, where, model->problem), {}, {}, {}};
    make_rows(build);
    model->effect_columns = build.columns.index();
    model->effect_columns.heads = build.head_columns;
    model->solution = adjust::solve(model->problem);
    take_results(build);
    report_findings(build);
    return model;
}

}  // namespace fallwright
