#include "model/model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "adjust/statistics.h"
#include "model/approximate.h"
#include "model/checked.h"
#include "model/columns.h"

namespace fallwright {

namespace {

constexpr double detectable_factor = 4.13;  // non-centrality for 0.1 % false alarms and 80 % power
constexpr double assumed_level = 100;       // in the book's unit
constexpr std::size_t names_in_a_sentence = 6;

class Builder {
  public:
    Builder(const Book& book, const Figures& figures, const Where& where)
        : book_(book), where_(where), model_(std::make_unique<Model>(Points(book, figures))) {
        model_->sights = prepare_sights(book, model_->points, figures, where);
        columns_ = std::make_unique<Columns>(book, model_->sights, where, model_->problem);
    }

    std::unique_ptr<Model> run() {
        hold_benchmarks();
        approximate_ = approximate(book_, model_->points, model_->sights, where_, known_);
        model_->problem.reserve(model_->sights.rows.size() + book_.steps.size(),
                                6 * model_->sights.rows.size());
        add_columns();
        for (const SightRow& row : model_->sights.rows) add_row(row);
        add_steps();
        add_benchmarks();
        add_shown();
        model_->solution = adjust::solve(model_->problem);
        take_levels();
        take_planes();
        take_fits();
        take_summary();
        report_undetermined();
        report_matches();
        return std::move(model_);
    }

  private:
    // Fixed points and what is known to start from.
    void hold_benchmarks() {
        known_.assign(model_->points.size(), NAN);
        fixed_.assign(model_->points.size(), false);
        for (const Benchmark& benchmark : book_.benchmarks) {
            const auto point = static_cast<std::size_t>(model_->points.at(benchmark.point));
            if (benchmark.sd == 0) fixed_[point] = true;
            if (benchmark.sd == 0 || std::isnan(known_[point])) known_[point] = benchmark.level.metres();
        }
        datum_.resize(known_.size());
        for (std::size_t i = 0; i < known_.size(); ++i) datum_[i] = !std::isnan(known_[i]);
        if (book_.benchmarks.empty() && !known_.empty()) assume_datum();
    }

    void assume_datum() {
        NameId first = model_->points.name(0);
        for (const std::uint32_t i : book_.readings_by_time) {
            if (model_->sights.row_of[i] < 0) continue;
            first = book_.readings[i].point;
            break;
        }
        const auto point = static_cast<std::size_t>(model_->points.at(first));
        known_[point] = assumed_level * book_.metres_per_unit();
        fixed_[point] = datum_[point] = true;
        model_->assumed_datum = true;
        model_->findings.push_back(finding(Code::AssumedDatum, {book_.name(first)},
                                           "no benchmark: " + book_.name(first) + " is taken as 100.000"));
    }

    void add_columns() {
        model_->level_columns.assign(model_->points.size(), no_column);
        model_->plane_columns.assign(book_.setups.size(), no_column);
        head_columns_.assign(book_.setups.size(), no_column);
        for (std::size_t i = 0; i < model_->points.size(); ++i) {
            if (!fixed_[i])
                model_->level_columns[i] = columns_->add({Owner::Kind::Point, static_cast<std::int32_t>(i)});
        }
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            if (model_->sights.row_start[i] != model_->sights.row_start[i + 1]) plane_column(i);
        }
    }

    std::size_t tripod(std::size_t setup) const { return static_cast<std::size_t>(where_.tripods[setup]); }

    // The height of a set-up's plane is its tripod's; a head that was only turned adds a small parameter of
    // its own.
    void plane_column(std::size_t setup) {
        const std::size_t root = tripod(setup);
        if (model_->plane_columns[root] == no_column)
            model_->plane_columns[root] =
                columns_->add({Owner::Kind::Plane, static_cast<std::int32_t>(root)});
        model_->plane_columns[setup] = model_->plane_columns[root];
        const double sd = book_.setups[setup].head_sd;
        if (root == setup || sd == 0) return;
        head_columns_[setup] = columns_->add({Owner::Kind::Head, static_cast<std::int32_t>(setup)});
        model_->problem.add_prior(head_columns_[setup], 0, sd);
    }

    void add_row(const SightRow& row) {
        const auto setup = static_cast<std::size_t>(row.setup);
        const auto point = static_cast<std::size_t>(row.point);
        terms_.clear();
        terms_.push_back({model_->plane_columns[setup], 1});
        if (head_columns_[setup] != no_column) terms_.push_back({head_columns_[setup], 1});
        if (model_->level_columns[point] != no_column) terms_.push_back({model_->level_columns[point], -1});
        const int private_columns =
            (book_foot_part(row) ? 1 : 0) + (row.terms.has_uv ? 0 : direction_part(row));
        double folded = row.shared_variance;
        int counted = private_columns;
        if (row.repeated && folded > 0) {
            terms_.push_back({shared_column(row), -1});
            folded = 0;
            counted = 0;
        }
        const double known = columns_->add_effects(row, terms_);
        const SetupTerms& set = model_->sights.setups[setup];
        // A matched axis is a parameter about what is shown; it is in `known`, not in the dialled plane.
        const double dialled =
            (set.matched[0] ? 0 : set.g[0] * row.terms.u) + (set.matched[1] ? 0 : set.g[1] * row.terms.v);
        const double computed =
            approximate_.planes[setup] + dialled + row.curvature + known - approximate_.levels[point];
        model_->problem.add_row(terms_, row.upright - computed, row.sd, folded, counted);
    }

    bool book_foot_part(const SightRow& row) const { return row.shared_variance > direction_variance(row); }

    double direction_variance(const SightRow& row) const {
        if (row.terms.has_uv) return 0;
        const double own =
            model_->sights.setups[static_cast<std::size_t>(row.setup)].errors->own_tilt_sd() * row.terms.d;
        return own * own;
    }

    int direction_part(const SightRow& row) const { return direction_variance(row) > 0 ? 1 : 0; }

    // Foot and unknown direction of a point read more than once in a set-up: one column, for they shift
    // alike. Where both are there the second still counts as an unknown with its prior.
    adjust::Column shared_column(const SightRow& row) {
        const auto [found, is_new] = shared_.emplace(std::pair(row.setup, row.point), no_column);
        if (is_new) {
            found->second = columns_->add({Owner::Kind::Foot, row.point});
            model_->problem.add_prior(found->second, 0, std::sqrt(row.shared_variance));
            const bool both = book_foot_part(row) && direction_part(row) > 0;
            model_->problem.private_columns += both ? 1 : 0;
        }
        return found->second;
    }

    void add_steps() {
        for (const Step& step : book_.steps) {
            const auto from = static_cast<std::size_t>(model_->points.at(step.from));
            const auto to = static_cast<std::size_t>(model_->points.at(step.to));
            terms_.clear();
            if (model_->level_columns[to] != no_column) terms_.push_back({model_->level_columns[to], 1});
            if (model_->level_columns[from] != no_column) terms_.push_back({model_->level_columns[from], -1});
            model_->problem.add_row(terms_, step.rise - (approximate_.levels[to] - approximate_.levels[from]),
                                    step.sd);
        }
    }

    // Weighted benchmarks are observations; fixed ones have no column.
    void add_benchmarks() {
        for (const Benchmark& benchmark : book_.benchmarks) {
            if (benchmark.sd == 0) continue;
            const auto point = static_cast<std::size_t>(model_->points.at(benchmark.point));
            terms_.clear();
            if (model_->level_columns[point] != no_column)
                terms_.push_back({model_->level_columns[point], 1});
            model_->problem.add_row(terms_, benchmark.level.metres() - approximate_.levels[point],
                                    benchmark.sd);
        }
    }

    // What the instrument shows is an observation of the gradient before tilt.
    void add_shown() {
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            if (model_->plane_columns[i] == no_column) continue;
            const SetupTerms& setup = model_->sights.setups[i];
            for (const Columns::Active& active : columns_->active(i, first_stretch(i))) {
                const bool setting =
                    active.effect->scope == Scope::Setup && active.parameter->column != no_column;
                for (std::size_t axis = 0; axis < 2; ++axis) {
                    const bool grade = setting && active.effect == grade_setting(axis);
                    if (grade && setup.shown[axis].has())
                        add_shown_row(setup, axis, active.parameter->column);
                }
            }
        }
    }

    void add_shown_row(const SetupTerms& setup, std::size_t axis, adjust::Column column) {
        const double step = setup.errors->grade_step;
        const double sd = std::sqrt(setup.errors->grade_sd * setup.errors->grade_sd + step * step / 12);
        if (sd == 0) return;
        terms_.assign({{column, 1}});
        model_->problem.add_row(terms_, setup.shown[axis].value - setup.g[axis], sd);
    }

    std::int32_t first_stretch(std::size_t setup) const {
        const std::uint32_t first = model_->sights.row_start[setup];
        return first == model_->sights.row_start[setup + 1]
                   ? 0
                   : model_->sights.rows[model_->sights.by_setup[first]].stretch;
    }

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
        for (const Columns::Active& active : columns_->active(setup, first_stretch(setup))) {
            if (active.effect->part != part) continue;
            const double factor = active.effect->coefficient(terms, metre);
            const Prior& prior = active.parameter->prior;
            value += factor * prior.value;
            if (active.parameter->column != no_column) {
                sum.push_back({active.parameter->column, factor});
            } else {
                prior_variance += prior.free ? NAN : factor * factor * prior.sd * prior.sd;
            }
        }
        value += corrected(sum);
        const double total = variance(sum) + prior_variance;
        model_->planes[setup].gradient[axis] = std::isnan(total) ? NAN : value;
        model_->planes[setup].gradient_sd[axis] = std::sqrt(total);
    }

    // Rows of readings stand first in the problem, steps after them.
    void take_fits() {
        for (std::size_t i = 0; i < model_->sights.rows.size(); ++i) {
            model_->fits.push_back(fit_of(i, model_->sights.rows[i].terms.sign));
        }
        for (std::size_t i = 0; i < book_.steps.size(); ++i) {
            model_->step_fits.push_back(fit_of(model_->sights.rows.size() + i, 1));
        }
    }

    ReadingFit fit_of(std::size_t row, double sign) const {
        ReadingFit fit;
        fit.residual = sign * model_->solution.residual[row];
        fit.sd = model_->problem.sd[row];
        fit.redundancy = model_->solution.redundancy[row];
        const double root = std::sqrt(fit.redundancy);
        fit.w = fit.redundancy > 0 ? fit.residual / (fit.sd * root) : NAN;
        fit.detectable = fit.redundancy > 0 ? detectable_factor * fit.sd / root : NAN;
        return fit;
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
        summary.ok = summary.chi2 <= summary.chi2_high;
        if (!summary.ok) {
            model_->findings.push_back(
                finding(Code::ChiHigh, {}, "the readings disagree by more than their uncertainties allow"));
        } else if (summary.chi2 < summary.chi2_low) {
            model_->findings.push_back(
                finding(Code::ChiLow, {}, "the readings agree better than their uncertainties say"));
        }
    }

    std::string name_of(const Owner& owner) const {
        const auto index = static_cast<std::size_t>(owner.index);
        switch (owner.kind) {
            case Owner::Kind::Point:
                return book_.name(model_->points.name(index));
            case Owner::Kind::Plane:
            case Owner::Kind::Head:
            case Owner::Kind::SetupEffect:
                return book_.name(book_.setups[index].name);
            case Owner::Kind::InstrumentEffect:
                return book_.name(book_.instruments[index].name);
            case Owner::Kind::StaffEffect:
                return book_.name(book_.staffs[index].name);
            case Owner::Kind::Foot:
                break;
        }
        return book_.name(model_->points.name(index));
    }

    // One finding for each way a part can move by itself.
    void report_undetermined() {
        for (const adjust::NullVector& null : model_->solution.nulls) {
            std::vector<std::string> about;
            std::set<std::string> seen;
            bool gradient = false;
            for (const adjust::Term& move : null.moves) {
                const Owner& owner = columns_->owner(move.column);
                gradient = gradient || owner.kind == Owner::Kind::SetupEffect;
                const std::string name = name_of(owner);
                if (seen.insert(name).second) about.push_back(name);
            }
            const std::string list = listed(about);
            const std::string message =
                gradient ? "the gradient of the plane is not determined by these readings: " + list
                         : "nothing ties these to a benchmark: " + list + "; their levels are not determined";
            model_->findings.push_back(finding(Code::Undetermined, std::move(about), message));
        }
    }

    static std::string listed(const std::vector<std::string>& names) {
        std::string list;
        for (std::size_t i = 0; i < names.size() && i < names_in_a_sentence; ++i)
            list += (i == 0 ? "" : ", ") + names[i];
        if (names.size() > names_in_a_sentence)
            list += " and " + std::to_string(names.size() - names_in_a_sentence) + " more";
        return list;
    }

    // A plane matched on a shared head is proved by a point of the head set-up read again, beside the one it
    // was matched on.
    void report_matches() {
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            const SetupTerms& setup = model_->sights.setups[i];
            if (!(setup.matched[0] || setup.matched[1]) || book_.setups[i].head_at < 0) continue;
            std::set<std::int32_t> again;
            const std::set<std::int32_t> head = points_in(static_cast<std::size_t>(book_.setups[i].head_at));
            for (const std::int32_t point : points_in(i)) {
                if (head.count(point) > 0) again.insert(point);
            }
            if (again.size() > 1) continue;
            const std::string& name = book_.name(book_.setups[i].name);
            model_->findings.push_back(finding(Code::MatchNotProved, {name},
                                               "the plane of set-up " + name + " is matched, not proved"));
        }
    }

    std::set<std::int32_t> points_in(std::size_t setup) const {
        std::set<std::int32_t> all;
        for (std::uint32_t k = model_->sights.row_start[setup]; k < model_->sights.row_start[setup + 1];
             ++k) {
            all.insert(model_->sights.rows[model_->sights.by_setup[k]].point);
        }
        return all;
    }

    const Book& book_;
    const Where& where_;
    std::unique_ptr<Model> model_;
    std::unique_ptr<Columns> columns_;
    std::vector<double> known_;
    std::vector<bool> fixed_, datum_;
    Approximate approximate_;
    std::vector<adjust::Column> head_columns_;
    std::map<std::pair<std::int32_t, std::int32_t>, adjust::Column> shared_;
    std::vector<adjust::Term> terms_;
};

std::vector<adjust::Term> terms_of(const Model& model, std::span<const PointTerm> sum) {
    std::vector<adjust::Term> terms;
    for (const PointTerm& term : sum) {
        const adjust::Column column = model.level_columns[static_cast<std::size_t>(term.point)];
        if (column != no_column) terms.push_back({column, term.coefficient});
    }
    return terms;
}

}  // namespace

double Model::variance_of(std::span<const PointTerm> sum) const {
    return solution.variance_of(terms_of(*this, sum));
}

double Model::covariance_of(std::span<const PointTerm> a, std::span<const PointTerm> b) const {
    return solution.covariance_of(terms_of(*this, a), terms_of(*this, b));
}

std::unique_ptr<Model> build_model(const Book& book, const Figures& figures, const Where& where) {
    return Builder(book, figures, where).run();
}

}  // namespace fallwright
