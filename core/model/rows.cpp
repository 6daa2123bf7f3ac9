#include <cmath>
#include <map>
#include <string>
#include <tuple>

#include "model/build.h"

namespace fallwright {

namespace {

constexpr double assumed_level = 100;  // in the book's unit

class RowMaker {
  public:
    explicit RowMaker(Build& build)
        : book_(build.book),
          where_(build.where),
          model_(&build.model),
          columns_(&build.columns),
          approximate_(build.approximate),
          datum_(build.datum),
          head_columns_(build.head_columns) {}

    void run() {
        hold_benchmarks();
        approximate_ = approximate(book_, model_->points, model_->sights, where_, known_);
        model_->problem.reserve(model_->sights.rows.size() + book_.steps.size(),
                                8 * model_->sights.rows.size());
        add_columns();
        for (const SightRow& row : model_->sights.rows) add_row(row);
        add_steps();
        add_benchmarks();
        add_shown();
        model_->joint_priors = columns_->add_checked_priors();
        model_->problem.fit();
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
        const Private own = add_shared(row);
        const double known = columns_->add_effects(row, terms_);
        const SetupTerms& set = model_->sights.setups[setup];
        // A matched axis is a parameter about what is shown; it is in `known`, not in the dialled plane.
        const double dialled =
            (set.matched[0] ? 0 : set.g[0] * row.terms.u) + (set.matched[1] ? 0 : set.g[1] * row.terms.v);
        const double computed =
            approximate_.planes[setup] + dialled + row.curvature + known - approximate_.levels[point];
        model_->problem.add_row(terms_, row.upright - computed, row.sd, own.variance, own.count);
    }

    // Unknowns with a prior that only one reading carries.
    struct Private {
        double variance = 0;
        int count = 0;
    };

    // Foot and unknown direction: a column each for a point read more than once in the set-up, else folded
    // into the row.
    Private add_shared(const SightRow& row) {
        Private own;
        for (const bool is_foot : {true, false}) {
            const double variance = is_foot ? row.foot_variance : row.direction_variance;
            if (variance == 0) continue;
            if (row.repeated) {
                terms_.push_back({shared_column(row, is_foot, variance), -1});
            } else {
                own.variance += variance;
                ++own.count;
            }
        }
        return own;
    }

    adjust::Column shared_column(const SightRow& row, bool is_foot, double variance) {
        const auto [found, is_new] = shared_.emplace(std::tuple(row.setup, row.point, is_foot), no_column);
        if (is_new) {
            found->second = columns_->add({Owner::Kind::Foot, row.point});
            model_->problem.add_prior(found->second, 0, std::sqrt(variance));
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
            for (const Columns::Active& active : columns_->active(i, first_stretch(*model_, i))) {
                const bool setting = active.effect->scope == Scope::Setup && *active.column != no_column;
                for (std::size_t axis = 0; axis < 2; ++axis) {
                    const bool grade = setting && active.effect == grade_setting(axis);
                    if (grade && setup.shown[axis].has()) add_shown_row(setup, axis, *active.column);
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

    const Book& book_;
    const Where& where_;
    Model* model_;
    Columns* columns_;
    Approximate& approximate_;
    std::vector<bool>& datum_;
    std::vector<adjust::Column>& head_columns_;
    std::vector<double> known_;  // per point, NaN where nothing is known beforehand
    std::vector<bool> fixed_;    // per point
    std::map<std::tuple<std::int32_t, std::int32_t, bool>, adjust::Column> shared_;  // by set-up and point
    std::vector<adjust::Term> terms_;                                                // of the row in hand
};

}  // namespace

void make_rows(Build& build) {
    RowMaker(build).run();
}

std::int32_t first_stretch(const Model& model, std::size_t setup) {
    const std::uint32_t first = model.sights.row_start[setup];
    const bool read = first != model.sights.row_start[setup + 1];
    return read ? model.sights.rows[model.sights.by_setup[first]].stretch : 0;
}

}  // namespace fallwright
