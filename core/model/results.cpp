#include <cmath>

#include "adjust/statistics.h"
#include "base/print.h"
#include "model/build.h"
#include "model/checked.h"

namespace fallwright {

namespace {

class ResultTaker {
  public:
    explicit ResultTaker(Build& build)
        : book_(build.book),
          model_(&build.model),
          columns_(&build.columns),
          approximate_(build.approximate),
          datum_(build.datum),
          head_columns_(build.head_columns) {}

    void run() {
        take_levels();
        take_planes();
        take_summary();
    }

  private:
    void take_levels() {
        const std::vector<bool> checked = checked_points(book_, model_->points, model_->sights, datum_);
        model_->levels.resize(model_->points.size());
        for (std::size_t i = 0; i < model_->points.size(); ++i) {
            PointLevel& level = model_->levels[i];
            const adjust::Column column = model_->level_columns[i];
            const bool free = column != no_column;
            level.level =
                approximate_.levels[i] + (free ? model_->solution.x[static_cast<std::size_t>(column)] : 0);
            level.sd = free ? std::sqrt(model_->solution.variance[static_cast<std::size_t>(column)]) : 0;
            if (free && !carried(column)) level.sd = NAN;
            if (std::isnan(level.sd)) level.level = NAN;
            level.checked = checked[i];
        }
        for (const SightRow& row : model_->sights.rows)
            ++model_->levels[static_cast<std::size_t>(row.point)].readings;
    }

    bool carried(adjust::Column column) const { return model_->solution.determined(column); }

    void take_planes() {
        model_->planes.resize(book_.setups.size());
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            take_plane_level(i);
            for (std::size_t axis = 0; axis < 2; ++axis) take_gradient(i, axis);
        }
    }

    void take_plane_level(std::size_t setup) {
        LightPlane& plane = model_->planes[setup];
        plane.level = plane.sd = NAN;
        const adjust::Column column = model_->plane_columns[setup];
        if (column == no_column || !carried(column)) return;
        std::vector<adjust::Term> sum = {{column, 1}};
        if (head_columns_[setup] != no_column) sum.push_back({head_columns_[setup], 1});
        plane.level = approximate_.planes[setup] + corrected(sum);
        plane.sd = std::sqrt(variance(sum));
    }

    double corrected(const std::vector<adjust::Term>& sum) const {
        double value = 0;
        for (const adjust::Term& term : sum)
            value += term.coefficient * model_->solution.x[static_cast<std::size_t>(term.column)];
        return value;
    }

    // From the selected inverse: the columns of one set-up stand together in its rows.
    double variance(const std::vector<adjust::Term>& sum) const {
        double total = 0;
        for (const adjust::Term& a : sum) {
            for (const adjust::Term& b : sum)
                total += a.coefficient * b.coefficient * model_->solution.covariance_of(a.column, b.column);
        }
        return total > 0 ? total : total == 0 ? 0 : NAN;
    }

    void take_gradient(std::size_t setup, std::size_t axis) {
        const SetupTerms& terms = model_->sights.setups[setup];
        const Part part = axis == 0 ? Part::MainGradient : Part::CrossGradient;
        SightTerms metre;
        (axis == 0 ? metre.u : metre.v) = 1;
        double value = terms.matched[axis] ? 0 : terms.g[axis];
        double prior_variance = 0;
        std::vector<adjust::Term> sum;
        for (const Columns::Active& active : columns_->active(setup, first_stretch(*model_, setup))) {
            if (active.effect->part != part) continue;
            const double factor = active.effect->coefficient(terms, metre);
            const Prior& prior = active.prior;
            value += factor * prior.value;
            if (*active.column != no_column) {
                sum.push_back({*active.column, factor});
            } else {
                prior_variance += prior.free ? NAN : factor * factor * prior.sd * prior.sd;
            }
        }
        value += corrected(sum);
        const double total = variance(sum) + prior_variance;
        model_->planes[setup].gradient[axis] = std::isnan(total) ? NAN : value;
        model_->planes[setup].gradient_sd[axis] = std::sqrt(total);
    }

    void take_summary() {
        Summary& summary = model_->summary;
        summary.observations = model_->solution.observations;
        summary.unknowns = model_->solution.unknowns;
        summary.dof = model_->solution.dof;
        summary.chi2 = model_->solution.chi2;
        summary.sigma0 = NAN;
        if (summary.dof <= 0) return;
        const auto dof = static_cast<double>(summary.dof);
        summary.sigma0 = std::sqrt(summary.chi2 / dof);
        summary.chi2_low = adjust::chi_square_quantile(0.025, dof);
        summary.chi2_high = adjust::chi_square_quantile(0.975, dof);
        const auto printed = [](double v) { return rounded_to_figures(v, significant_figures); };
        summary.ok = printed(summary.chi2) <= printed(summary.chi2_high);
        if (!summary.ok) {
            model_->findings.push_back(
                finding(Code::ChiHigh, {}, "the readings disagree by more than their uncertainties allow"));
        } else if (printed(summary.chi2) < printed(summary.chi2_low)) {
            model_->findings.push_back(
                finding(Code::ChiLow, {}, "the readings agree better than their uncertainties say"));
        }
    }

    const Book& book_;
    Model* model_;
    Columns* columns_;
    Approximate& approximate_;
    std::vector<bool>& datum_;
    std::vector<adjust::Column>& head_columns_;
};

}  // namespace

void take_results(Build& build) {
    ResultTaker(build).run();
}

}  // namespace fallwright
