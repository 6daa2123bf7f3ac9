#include "suspect/reassign.h"

#include <cmath>

namespace fallwright {

namespace {

constexpr double least_redundancy = 1e-6;

// ln of the normal density, without its constant ln(2 pi) / 2, which cancels.
double log_density(double misfit, double variance) {
    return -misfit * misfit / (2 * variance) - std::log(variance) / 2;
}

// The row as it would be.
struct NewRow {
    std::vector<adjust::Term> terms;
    double misfit = NAN;   // by the solution as it is
    double variance = 0;  // of its own
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
        if (!alone) found = {0, sight_.terms.sign * misfit_ / redundancy_, std::sqrt(variance_ / redundancy_)};
        const bool of_point = cause_.kind == SuspectKind::WrongPoint;
        if (alone && !of_point) return found;
        const NewRow row = of_point ? at_other_point() : in_other_setup();
        if (std::isnan(row.misfit)) return found;
        if (far_off(row, alone)) {
            found.log_odds = -INFINITY;
            return found;
        }
        const double roughly = rough_variance(row);
        if (std::isnan(roughly) || most_odds(row, alone) > enough) {
            if (std::isnan(roughly) && std::isnan(evidence_.solution().variance_of(row.terms))) return found;
            found.log_odds = against(row, alone);
        } else {
            found.log_odds = against_roughly(row, roughly, alone);
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

    NewRow at_other_point() const {
        NewRow row;
        const adjust::Column old = causes_.model().level_columns[static_cast<std::size_t>(sight_.point)];
        const adjust::Column own = causes_.model().level_columns[static_cast<std::size_t>(cause_.point)];
        std::vector<adjust::Term> all;
        for (const adjust::Term& term : evidence_.terms(row_, all)) {
            if (term.column != old || old == no_column) row.terms.push_back(term);
        }
        if (own != no_column) row.terms.push_back({own, -1});
        const auto setup = static_cast<std::size_t>(sight_.setup);
        const SightPlace booked = {sight_.terms.u, sight_.terms.v, sight_.terms.d, sight_.terms.has_uv, false};
        row.misfit = misfit_ + dialled_at(setup, booked) - dialled_at(setup, place_of(setup, cause_.point)) -
                     evidence_.level(sight_.point) + evidence_.level(cause_.point);
        row.variance = variance_;
        return row;
    }

    NewRow in_other_setup() const {
        NewRow row;
        const auto setup = static_cast<std::size_t>(cause_.other);
        const Model& model = causes_.model();
        const SightPlace place = place_of(setup, sight_.point);
        std::vector<adjust::Term> plane = {{model.plane_columns[setup], 1}};
        if (model.effect_columns.heads[setup] != no_column)
            plane.push_back({model.effect_columns.heads[setup], 1});
        const double level = model.planes[setup].level + evidence_.beyond_model(plane);
        row.terms = plane;
        const adjust::Column own = model.level_columns[static_cast<std::size_t>(sight_.point)];
        if (own != no_column) row.terms.push_back({own, -1});
        row.misfit =
            sight_.upright - (level + dialled_at(setup, place) - evidence_.level(sight_.point));
        const double tilted = model.sights.setups[setup].errors->own_tilt_sd() * place.d;
        row.variance = variance_ + tilted * tilted;
        return row;
    }

    // Whether the reading is so far from where it would belong that a solve would only say by how much: at
    // least eight standard deviations, by the sum of all there are.
    bool far_off(const NewRow& row, bool alone) const {
        constexpr double far = 8;
        double sds = std::sqrt(row.variance);
        for (const adjust::Term& term : row.terms) {
            const double variance = evidence_.solution().variance[static_cast<std::size_t>(term.column)];
            if (std::isnan(variance)) return false;
            sds += std::fabs(term.coefficient) * std::sqrt(variance);
        }
        const double without = alone ? 0 : std::fabs(misfit_ / redundancy_);
        return std::fabs(row.misfit) > far * sds + without;
    }

    // NaN where an unknown is not determined by itself.
    double rough_variance(const NewRow& row) const {
        double sum = row.variance;
        for (const adjust::Term& term : row.terms)
            sum += term.coefficient * term.coefficient *
                   evidence_.solution().variance[static_cast<std::size_t>(term.column)];
        return sum;
    }
    // The reading cannot speak louder than by all of its present misfit, and a new place as sharp as itself.
    double most_odds(const NewRow& row, bool alone) const {
        if (alone) return log_density(0, row.variance);
        return log_density(0, row.variance) - log_density(misfit_ / redundancy_, variance_ / redundancy_);
    }
    double against_roughly(const NewRow& row, double variance, bool alone) const {
        if (alone) return log_density(row.misfit, variance);
        return log_density(row.misfit, variance) -
               log_density(misfit_ / redundancy_, variance_ / redundancy_);
    }

    double against(const NewRow& row, bool alone) const {
        const std::vector<adjust::Part> parts = evidence_.solution().parts_of(row.terms);
        double misfit = row.misfit, variance = row.variance + product(parts, parts);
        if (alone) return log_density(misfit, variance);
        const double held = variance_ * redundancy_;
        const double joint = product(parts, evidence_.parts(row_));
        misfit += joint * misfit_ / held;
        variance += joint * joint / held;
        return log_density(misfit, variance) -
               log_density(misfit_ / redundancy_, variance_ / redundancy_);
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
