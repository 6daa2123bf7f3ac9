#include "trial/solve.h"

#include <cmath>

#include "adjust/statistics.h"
#include "trial/rows.h"
#include "trial/small_matrix.h"

namespace fallwright {

namespace {

constexpr double worst_sd_seen = 5e-4;  // of an error: half a millimetre a metre, as much as any is out
constexpr double chance = 0.95;         // that the scatter stays within its limit
// An sd far beyond that of any instrument, to learn what the shots say of errors they do not part.
constexpr double hardly_believed = 0.01;
constexpr double clear_sign = 10.83;  // chi-square of one degree of freedom at 0.1 %
constexpr double likely = 0.999;      // by chance in one check of a thousand
constexpr double hardly = 0.999999;   // a tripod moved by centimetres shows far more

class TrialSolver {
  public:
    TrialSolver(const UsableShots& shots, const InstrumentErrors& errors, TrialOutcome& outcome)
        : shots_(shots), errors_(errors), outcome_(outcome) {}

    void run() {
        solve({});
        if (shots_.turned_by_name && !agrees(solution_, hardly)) try_moved();
        take_errors();
        take_shots();
        take_scatter();
        take_drift();
        take_information();
        outcome_.moved = ways_.moved;
    }

  private:
    void solve(const Ways& ways) {
        ways_ = ways;
        made_ = trial_rows(shots_, errors_, outcome_.tested, ways);
        solution_ = adjust::solve(made_.problem);
    }

    static bool agrees(const adjust::Solution& solution, double up_to) {
        if (solution.dof <= 0) return true;
        return solution.chi2 <= adjust::chi_square_quantile(up_to, static_cast<double>(solution.dof));
    }

    // If the shots agree only with a height for each turn, the tripod did not stay.
    void try_moved() {
        solve({true, false, 0});
        if (!agrees(solution_, likely)) solve({});
    }

    void take_errors() {
        outcome_.value.fill(NAN);
        outcome_.sd.fill(NAN);
        for (std::size_t i = 0; i < tested_errors; ++i) {
            const adjust::Column column = made_.errors[i];
            if (column < 0 || !solution_.determined(column)) continue;
            const double sd = std::sqrt(solution_.variance[static_cast<std::size_t>(column)]);
            if (!(sd <= worst_sd_seen)) continue;
            outcome_.seen[i] = true;
            outcome_.value[i] = solution_.x[static_cast<std::size_t>(column)];
            outcome_.sd[i] = sd;
        }
        for (std::size_t i = 0; i < tested_errors; ++i) {
            for (std::size_t j = 0; j < tested_errors; ++j) {
                if (outcome_.seen[i] && outcome_.seen[j])
                    outcome_.covariance[i][j] = solution_.covariance_of(made_.errors[i], made_.errors[j]);
            }
        }
    }

    // What the errors seen add to a shot, with what the curvature does.
    double added(const UsableShot& shot) const {
        SetupTerms setup;
        setup.errors = &errors_;
        double sum = shot.terms.sign * shot.terms.r - shot.y;
        for (std::size_t i = 0; i < tested_errors; ++i) {
            const bool tilt = instrument_effects()[i]->part != Part::Nothing;
            if (!outcome_.seen[i] || (tilt && !shot.faced)) continue;
            sum += outcome_.value[i] * instrument_effects()[i]->coefficient(setup, shot.terms);
        }
        return sum;
    }

    void take_shots() {
        for (std::size_t row = 0; row < shots_.shots.size(); ++row) {
            const UsableShot& shot = shots_.shots[row];
            ShotFit fit;
            fit.shot = shot.shot;
            fit.value = shot.terms.sign * shot.terms.r;
            fit.dist = shot.terms.d;
            fit.corrected = fit.value - added(shot);
            fit.residual = shot.terms.sign * solution_.residual[row];
            fit.sd = shot.sd;
            fit.redundancy = solution_.redundancy[row];
            fit.w = fit.redundancy > 0 ? fit.residual / (fit.sd * std::sqrt(fit.redundancy)) : NAN;
            outcome_.shots.push_back(fit);
        }
    }

    void take_scatter() {
        Scatter& scatter = outcome_.scatter;
        double squares = 0;
        for (const UsableShot& shot : shots_.shots) squares += shot.sd * shot.sd;
        scatter.stated =
            shots_.shots.empty() ? NAN : std::sqrt(squares / static_cast<double>(shots_.shots.size()));
        scatter.dof = solution_.dof;
        scatter.chi2 = solution_.chi2;
        scatter.found = scatter.limit = NAN;
        if (scatter.dof <= 0) return;
        const auto dof = static_cast<double>(scatter.dof);
        scatter.found = scatter.stated * std::sqrt(scatter.chi2 / dof);
        scatter.limit = scatter.stated * std::sqrt(adjust::chi_square_quantile(chance, dof) / dof);
        outcome_.consistent = agrees(solution_, likely);
    }

    // A drift counts only where it makes the shots agree far better.
    void take_drift() {
        outcome_.drift = outcome_.drift_sd = NAN;
        if (solution_.dof <= 0) return;
        const TrialProblem drifting = trial_rows(shots_, errors_, outcome_.tested, {ways_.moved, true, 0});
        const adjust::Solution solved = adjust::solve(drifting.problem);
        if (!solved.determined(drifting.drift)) return;
        const auto at = static_cast<std::size_t>(drifting.drift);
        outcome_.drift = solved.x[at];
        outcome_.drift_sd = std::sqrt(solved.variance[at]);
        outcome_.drifts = solution_.chi2 - solved.chi2 > clear_sign;
    }

    // Once more with priors that say next to nothing: their inverse covariance less that of the priors is
    // what the shots say, of errors they do not part too.
    void take_information() {
        const TrialProblem believed =
            trial_rows(shots_, errors_, outcome_.tested, {ways_.moved, false, hardly_believed});
        const adjust::Solution solved = adjust::solve(believed.problem);
        std::array<bool, tested_errors> carried{};
        ErrorMatrix covariance{};
        ErrorVector value{};
        for (std::size_t i = 0; i < tested_errors; ++i)
            carried[i] = believed.errors[i] >= 0 && solved.determined(believed.errors[i]);
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (!carried[i]) continue;
            value[i] = solved.x[static_cast<std::size_t>(believed.errors[i])];
            for (std::size_t j = 0; j < tested_errors; ++j) {
                if (carried[j])
                    covariance[i][j] = solved.covariance_of(believed.errors[i], believed.errors[j]);
            }
        }
        outcome_.information = inverse(covariance, carried);
        outcome_.pull = times(outcome_.information, value);
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (carried[i]) outcome_.information[i][i] -= 1 / (hardly_believed * hardly_believed);
        }
    }

    const UsableShots& shots_;
    const InstrumentErrors& errors_;
    TrialOutcome& outcome_;
    Ways ways_;
    TrialProblem made_;
    adjust::Solution solution_;
};

}  // namespace

void solve_trial(const UsableShots& shots, const InstrumentErrors& errors, TrialOutcome& outcome) {
    TrialSolver(shots, errors, outcome).run();
}

}  // namespace fallwright
