#include "suspect/reassign.h"

#include <cmath>

namespace fallwright {

namespace {

constexpr double least_redundancy = 1e-6;

// ln of the normal density, without its constant ln(2 pi) / 2, which cancels.
double log_density(double misfit, double variance) {
    return -misfit * misfit / (2 * variance) - std::log(variance) / 2;
}

// The reading where it would belong: its misfit by the solution as it is, and the variance of its own.
struct Place {
    double misfit = NAN;
    double variance = 0;
};

class Reassignment {
  public:
    Reassignment(const Evidence& evidence, const Causes& causes, const Cause& cause)
        : evidence_(evidence),
          causes_(causes),
          cause_(cause),
          row_(static_cast<std::uint32_t>(cause.row)),
          sight_(causes.sight(cause.row)) {
        const double own = evidence.problem().sd[row_];
        variance_ = evidence.variance(row_);
        redundancy_ = evidence.solution().redundancy[row_] * variance_ / (own * own);
        misfit_ = evidence.pull(row_) * variance_;
    }

    FoundSize odds(double enough) {
        const bool alone = redundancy_ < least_redundancy;
        FoundSize found = {0, NAN, NAN};
        if (!alone)
            found = {0, sight_.terms.sign * misfit_ / redundancy_, std::sqrt(variance_ / redundancy_)};
        const bool of_point = cause_.kind == SuspectKind::WrongPoint;
        if (alone && !of_point) return found;
        const Place there = of_point ? at_other_point() : in_other_setup();
        if (std::isnan(there.misfit)) return found;
        const Spread spread = of_point ? spread_at_other_point() : spread_in_other_setup();
        if (far_off(there, spread, alone)) {
            found.log_odds = never;
        } else if (!std::isnan(spread.squares) && most_odds(there, alone) <= enough) {
            found.log_odds = log_density(there.misfit, there.variance + spread.squares) - as_booked(alone);
        } else {
            const std::vector<adjust::Term> terms =
                of_point ? terms_at_other_point() : terms_in_other_setup();
            const bool told =
                !std::isnan(spread.squares) || !std::isnan(evidence_.solution().variance_of(terms));
            if (told) found.log_odds = against(there, terms, alone);
        }
        return found;
    }

  private:
    // Where the point stands on the plane of a set-up, as dialled; NaN where a slope needs a place it lacks.
    double dialled_at(std::size_t setup, const SightPlace& place) const {
        const SetupTerms& terms = causes_.model().sights.setups[setup];
        if (terms.level()) return 0;
        if (!place.has_uv) return NAN;
        return (terms.matched[0] ? 0 : terms.g[0] * place.u) + (terms.matched[1] ? 0 : terms.g[1] * place.v);
    }

    SightPlace place_of(std::size_t setup, std::int32_t point) const {
        const NameId name = causes_.model().points.name(static_cast<std::size_t>(point));
        return seen_from(causes_.where(), setup, causes_.where().points[name]);
    }

    Place at_other_point() const {
        const auto setup = static_cast<std::size_t>(sight_.setup);
        const SightPlace booked = {sight_.terms.u, sight_.terms.v, sight_.terms.d, sight_.terms.has_uv,
                                   false};
        const double on_plane =
            causes_.model().sights.setups[setup].level()
                ? 0
                : dialled_at(setup, booked) - dialled_at(setup, place_of(setup, cause_.point));
        return {misfit_ + on_plane - evidence_.level(sight_.point) + evidence_.level(cause_.point),
                variance_};
    }

    Place in_other_setup() const {
        const auto setup = static_cast<std::size_t>(cause_.other);
        const Model& model = causes_.model();
        const SightPlace place = place_of(setup, sight_.point);
        const double level = model.planes[setup].level + evidence_.beyond_model(terms_of_plane(setup));
        const double tilted = model.sights.setups[setup].errors->own_tilt_sd() * place.d;
        return {sight_.upright - (level + dialled_at(setup, place) - evidence_.level(sight_.point)),
                variance_ + tilted * tilted};
    }

    adjust::Column level_column(std::int32_t point) const {
        return causes_.model().level_columns[static_cast<std::size_t>(point)];
    }

    std::vector<adjust::Term> terms_of_plane(std::size_t setup) const {
        const Model& model = causes_.model();
        std::vector<adjust::Term> plane = {{model.plane_columns[setup], 1}};
        if (model.effect_columns.heads[setup] != no_column)
            plane.push_back({model.effect_columns.heads[setup], 1});
        return plane;
    }

    std::vector<adjust::Term> terms_in_other_setup() const {
        std::vector<adjust::Term> terms = terms_of_plane(static_cast<std::size_t>(cause_.other));
        if (level_column(sight_.point) != no_column) terms.push_back({level_column(sight_.point), -1});
        return terms;
    }

    std::vector<adjust::Term> terms_at_other_point() const {
        const adjust::Column old = level_column(sight_.point);
        std::vector<adjust::Term> all, terms;
        for (const adjust::Term& term : evidence_.terms(row_, all)) {
            if (term.column != old || old == no_column) terms.push_back(term);
        }
        if (level_column(cause_.point) != no_column) terms.push_back({level_column(cause_.point), -1});
        return terms;
    }

    // Of the unknowns a row leans on, as if they were independent (squares) and as if they all leaned one way
    // (sum of sds); NaN where one of them is not determined by itself.
    struct Spread {
        double squares = 0, sds = 0;
        void add(double variance) {
            squares += variance;
            sds += std::sqrt(variance);
        }
    };
    double variance_of(adjust::Column column) const {
        return column == no_column ? 0 : evidence_.solution().variance[static_cast<std::size_t>(column)];
    }

    Spread spread_at_other_point() const {
        Spread spread;
        const adjust::Problem& problem = evidence_.problem();
        const adjust::Column old = level_column(sight_.point);
        for (std::size_t k = problem.start[row_]; k < problem.start[row_ + 1]; ++k) {
            if (problem.column[k] == old) continue;
            spread.add(problem.coefficient[k] * problem.coefficient[k] * variance_of(problem.column[k]));
        }
        spread.add(variance_of(level_column(cause_.point)));
        return spread;
    }

    Spread spread_in_other_setup() const {
        Spread spread;
        const auto setup = static_cast<std::size_t>(cause_.other);
        spread.add(variance_of(causes_.model().plane_columns[setup]));
        spread.add(variance_of(causes_.model().effect_columns.heads[setup]));
        spread.add(variance_of(level_column(sight_.point)));
        return spread;
    }

    // Whether the reading is so far from where it would belong that a solve would only say by how much: at
    // least eight standard deviations, by the sum of all there are.
    bool far_off(const Place& there, const Spread& spread, bool alone) const {
        constexpr double far = 8;
        if (std::isnan(spread.sds)) return false;
        const double without = alone ? 0 : std::fabs(misfit_ / redundancy_);
        return std::fabs(there.misfit) > far * (std::sqrt(there.variance) + spread.sds) + without;
    }

    // ln density of the reading as booked, by all others.
    double as_booked(bool alone) const {
        return alone ? 0 : log_density(misfit_ / redundancy_, variance_ / redundancy_);
    }
    // The reading cannot speak louder than by all of its present misfit, and a new place as sharp as itself.
    double most_odds(const Place& there, bool alone) const {
        return log_density(0, there.variance) - as_booked(alone);
    }

    double against(const Place& there, const std::vector<adjust::Term>& terms, bool alone) const {
        const std::vector<adjust::Part> parts = evidence_.solution().parts_of(terms);
        double misfit = there.misfit, variance = there.variance + product(parts, parts);
        if (!alone) {
            const double held = variance_ * redundancy_;
            const double joint = product(parts, evidence_.parts(row_));
            misfit += joint * misfit_ / held;
            variance += joint * joint / held;
        }
        return log_density(misfit, variance) - as_booked(alone);
    }

    const Evidence& evidence_;
    const Causes& causes_;
    const Cause& cause_;
    std::uint32_t row_;
    const SightRow& sight_;
    double variance_ = 0, redundancy_ = 0, misfit_ = 0;  // of the row as booked; redundancy against V
};

}  // namespace

FoundSize odds_reassigned(const Evidence& evidence, const Causes& causes, const Cause& cause, double enough) {
    return Reassignment(evidence, causes, cause).odds(enough);
}

}  // namespace fallwright
