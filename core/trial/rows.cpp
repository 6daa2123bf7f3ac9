#include "trial/rows.h"

namespace fallwright {

namespace {

constexpr adjust::Column none = -1;

class TrialRows {
  public:
    TrialRows(const UsableShots& shots, const InstrumentErrors& errors,
              const std::array<bool, tested_errors>& tested, const Ways& ways)
        : shots_(shots), errors_(errors), ways_(ways) {
        add_errors(tested);
        heights_.assign(shots.heights + shots.levelling_ups, none);
        pegs_.assign(shots.pegs, none);
        settings_.assign(shots.levelling_ups, {none, none});
        if (ways.drifting) made_.drift = made_.problem.add_column();
        for (const UsableShot& shot : shots.shots) add(shot);
    }

    TrialProblem take() { return std::move(made_); }

  private:
    void add_errors(const std::array<bool, tested_errors>& tested) {
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (!tested[i]) continue;
            made_.errors[i] = made_.problem.add_column();
            if (ways_.believed > 0) made_.problem.add_prior(made_.errors[i], 0, ways_.believed);
        }
    }

    adjust::Column one(adjust::Column& column) {
        if (column == none) column = made_.problem.add_column();
        return column;
    }

    void add(const UsableShot& shot) {
        const bool own_height = ways_.moved && shot.faced;
        terms_.clear();
        terms_.push_back({one(heights_[own_height ? shots_.heights + shot.levelling_up : shot.height]), 1});
        terms_.push_back({one(pegs_[shot.peg]), -1});
        SetupTerms setup;
        setup.errors = &errors_;
        setup.oriented = shot.faced || !shots_.any_faced;
        add_tested(setup, shot);
        add_setting(setup, shot);
        if (made_.drift != none) terms_.push_back({made_.drift, static_cast<double>(shot.shot)});
        made_.problem.add_row(terms_, shot.y, shot.sd);
    }

    // Without facing a tilt is a slope of the line of pegs, and no error to be seen.
    void add_tested(const SetupTerms& setup, const UsableShot& shot) {
        for (std::size_t i = 0; i < tested_errors; ++i) {
            const Effect& effect = *instrument_effects()[i];
            const bool tilt = effect.part != Part::Nothing;
            if (made_.errors[i] == none || (tilt && !shot.faced)) continue;
            const double coefficient = effect.coefficient(setup, shot.terms);
            if (coefficient != 0) terms_.push_back({made_.errors[i], coefficient});
        }
    }

    void add_setting(const SetupTerms& setup, const UsableShot& shot) {
        for (std::size_t axis = 0; axis < 2; ++axis) {
            const Effect& effect = *setup_effects()[axis];
            const Prior prior = effect.prior(setup);
            const double coefficient = effect.coefficient(setup, shot.terms);
            if (!prior.present || coefficient == 0) continue;
            adjust::Column& column = settings_[shot.levelling_up][axis];
            if (column == none) made_.problem.add_prior(one(column), 0, prior.sd);
            terms_.push_back({column, coefficient});
        }
    }

    const UsableShots& shots_;
    const InstrumentErrors& errors_;
    const Ways& ways_;
    TrialProblem made_;
    std::vector<adjust::Column> heights_, pegs_;
    std::vector<std::array<adjust::Column, 2>> settings_;  // by levelling-up
    std::vector<adjust::Term> terms_;
};

}  // namespace

TrialProblem trial_rows(const UsableShots& shots, const InstrumentErrors& errors,
                        const std::array<bool, tested_errors>& tested, const Ways& ways) {
    return TrialRows(shots, errors, tested, ways).take();
}

}  // namespace fallwright
