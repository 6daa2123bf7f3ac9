#include "model/budget.h"

#include <algorithm>
#include <vector>

#include "adjust/factor.h"

namespace fallwright {

namespace {

// Of the sum with every column.
std::vector<double> covariances(const Model& model, std::span<const PointTerm> sum) {
    std::vector<adjust::Term> terms;
    for (const PointTerm& term : sum) {
        const adjust::Column column = model.level_columns[static_cast<std::size_t>(term.point)];
        if (column != no_column) terms.push_back({column, term.coefficient});
    }
    return model.solution.factor->covariances_with(terms);
}

class Accounts {
  public:
    Accounts(const Book& book, const Model& model, std::span<const PointTerm> sum)
        : book_(book), model_(model), problem_(model.problem), z_(covariances(model, sum)) {
        cause_.assign(problem_.columns(), BudgetPart::Foot);
        name_columns();
    }

    Budget run() {
        const std::size_t readings = model_.sights.rows.size();
        for (std::size_t row = 0; row < readings; ++row) add_reading(row);
        const std::size_t steps = readings + book_.steps.size();
        for (std::size_t row = readings; row < steps; ++row) add(BudgetPart::Carried, share_of(row));
        const std::size_t weighted = static_cast<std::size_t>(
            std::count_if(book_.benchmarks.begin(), book_.benchmarks.end(),
                          [](const Benchmark& benchmark) { return benchmark.sd != 0; }));
        for (std::size_t row = steps; row < steps + weighted; ++row)
            add(BudgetPart::Benchmark, share_of(row));
        // What instruments show, and what checks say of them together.
        for (std::size_t row = steps + weighted; row < problem_.rows(); ++row)
            add(cause_[at(problem_.column[problem_.start[row]])], share_of(row));
        for (std::size_t column = 0; column < problem_.columns(); ++column) {
            const double sd = problem_.prior_sd[column];
            if (sd > 0) add(cause_[column], z_[column] / sd * (z_[column] / sd));
        }
        return budget_;
    }

  private:
    static std::size_t at(adjust::Column column) { return static_cast<std::size_t>(column); }

    void name(adjust::Column column, BudgetPart cause) {
        if (column != no_column) cause_[at(column)] = cause;
    }

    void name_columns() {
        const ColumnIndex& index = model_.effect_columns;
        for (const auto& [which, columns] : index.instruments) {
            for (std::size_t i = 0; i < columns.size(); ++i)
                name(columns[i], i < tested_errors ? BudgetPart::Instrument : BudgetPart::Grade);
        }
        constexpr std::size_t levelling_axes = 2;  // the first of setup_effects()
        for (const auto& columns : index.setups) {
            for (std::size_t i = 0; i < columns.size(); ++i)
                name(columns[i], i < levelling_axes ? BudgetPart::LevellingUp : BudgetPart::Grade);
        }
        for (const auto& columns : index.staffs) {
            for (const adjust::Column column : columns) name(column, BudgetPart::Staff);
        }
        for (const adjust::Column column : index.heads) name(column, BudgetPart::Head);
        name_directions();
    }

    // Of points read more than once in a set-up the foot has a column of its own, and after it, where their
    // direction is unknown, the tilt towards them (rows.cpp); a prior and no other owner tells both.
    void name_directions() {
        for (std::size_t row = 0; row < model_.sights.rows.size(); ++row) {
            const SightRow& sight = model_.sights.rows[row];
            if (!sight.repeated || sight.direction_variance == 0) continue;
            bool foot = sight.foot_variance != 0;
            for (std::size_t k = problem_.start[row]; k < problem_.start[row + 1]; ++k) {
                const adjust::Column column = problem_.column[k];
                if (cause_[at(column)] != BudgetPart::Foot || problem_.prior_sd[at(column)] == 0) continue;
                if (!foot) {
                    name(column, BudgetPart::LevellingUp);
                    break;
                }
                foot = false;
            }
        }
    }

    double variance_of_row(std::size_t row) const {
        return problem_.sd[row] * problem_.sd[row] + problem_.folded[row];
    }

    double share_of(std::size_t row) const {
        double along = 0;
        for (std::size_t k = problem_.start[row]; k < problem_.start[row + 1]; ++k)
            along += problem_.coefficient[k] * z_[at(problem_.column[k])];
        return along * along / variance_of_row(row);
    }

    void add_reading(std::size_t row) {
        const double share = share_of(row) / variance_of_row(row);
        add(BudgetPart::Reading, share * problem_.sd[row] * problem_.sd[row]);
        if (problem_.folded[row] == 0) return;
        const SightRow& sight = model_.sights.rows[row];
        add(BudgetPart::Foot, share * sight.foot_variance);
        add(BudgetPart::LevellingUp, share * sight.direction_variance);
    }

    void add(BudgetPart cause, double variance) { budget_[static_cast<std::size_t>(cause)] += variance; }

    const Book& book_;
    const Model& model_;
    const adjust::Problem& problem_;
    std::vector<double> z_;          // per column
    std::vector<BudgetPart> cause_;  // per column
    Budget budget_{};
};

}  // namespace

Budget budget_of(const Book& book, const Model& model, std::span<const PointTerm> sum) {
    return Accounts(book, model, sum).run();
}

std::string_view cause_words(BudgetPart cause) {
    switch (cause) {
        case BudgetPart::Reading:
            return "reading";
        case BudgetPart::Foot:
            return "staff's foot";
        case BudgetPart::Instrument:
            return "instrument";
        case BudgetPart::LevellingUp:
            return "levelling-up";
        case BudgetPart::Grade:
            return "grade and aim";
        case BudgetPart::Head:
            return "head turned";
        case BudgetPart::Staff:
            return "staff";
        case BudgetPart::Carried:
            return "carried";
        case BudgetPart::Benchmark:
            return "benchmarks";
    }
    return "";
}

}  // namespace fallwright
