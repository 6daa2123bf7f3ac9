#include "model/columns.h"

#include <utility>

namespace fallwright {

Columns::Columns(const Book& book, const Sights& sights, const Where& where, adjust::Problem& problem)
    : book_(book), sights_(sights), where_(where), problem_(problem), of_setups_(book.setups.size()) {
    for (auto& columns : of_setups_) columns.fill(no_column);
    for (const Staff& staff : book.staffs) {
        std::vector<StaffParameter> parameters;
        for (const StaffEffect& effect : staff_effects(staff)) parameters.push_back({effect, no_column});
        of_staffs_.push_back(std::move(parameters));
    }
}

adjust::Column Columns::add(const Owner& owner) {
    owners_.push_back(owner);
    return problem_.add_column();
}

std::vector<adjust::Column>& Columns::instrument_columns(std::size_t instrument, std::int32_t stretch) {
    std::vector<adjust::Column>& columns = of_instruments_[{instrument, stretch}];
    columns.resize(instrument_effects().size(), no_column);
    return columns;
}

const std::vector<Columns::Active>& Columns::active(std::size_t setup, std::int32_t stretch) {
    if (active_stretch_ == stretch && active_setup_ == setup) return active_;
    active_setup_ = setup;
    active_stretch_ = stretch;
    active_.clear();
    const SetupTerms& terms = sights_.setups[setup];
    const auto add_present = [&](const Effect* effect, const Prior& prior, adjust::Column& column,
                                 bool checked) {
        if (prior.present) active_.push_back({effect, prior, &column, checked});
    };
    const auto instrument = static_cast<std::size_t>(book_.setups[setup].instrument_at);
    auto& shared = instrument_columns(instrument, stretch);
    const CheckedErrors* checked = sights_.checked_in(instrument, stretch);
    for (std::size_t i = 0; i < shared.size(); ++i) {
        const Effect* effect = instrument_effects()[i];
        add_present(effect, checked_prior(checked, i, *effect, terms), shared[i],
                    checked != nullptr && i < tested_errors);
    }
    auto& own = of_setups_[setup];
    auto& tripod = of_setups_[static_cast<std::size_t>(where_.tripods[setup])];
    for (std::size_t i = 0; i < own.size(); ++i) {
        const Effect* effect = setup_effects()[i];
        add_present(effect, effect->prior(terms), effect->scope == Scope::Tripod ? tripod[i] : own[i], false);
    }
    return active_;
}

ColumnIndex Columns::index() const {
    ColumnIndex index{of_instruments_, of_setups_, {}, {}};
    for (const std::vector<StaffParameter>& parameters : of_staffs_) {
        std::vector<adjust::Column>& columns = index.staffs.emplace_back();
        for (const StaffParameter& parameter : parameters) columns.push_back(parameter.column);
    }
    return index;
}

double Columns::add_parameter(const Prior& prior, bool joint, adjust::Column& column, const Owner& owner,
                              double coefficient, std::vector<adjust::Term>& terms) {
    if (coefficient == 0) return 0;
    const bool exact = !prior.free && prior.sd == 0;
    if (!exact) {
        if (column == no_column) {
            column = add(owner);
            if (!prior.free && !joint) problem_.add_prior(column, 0, prior.sd);
        }
        terms.push_back({column, coefficient});
    }
    return coefficient * prior.value;
}

std::vector<JointPrior> Columns::add_checked_priors() {
    std::vector<JointPrior> all;
    for (const auto& [which, checked] : sights_.checked) {
        const auto found = of_instruments_.find(which);
        if (found == of_instruments_.end()) continue;
        JointPrior joint;
        std::vector<std::size_t> carried;
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (found->second[i] == no_column) continue;
            joint.columns.push_back(found->second[i]);
            carried.push_back(i);
        }
        for (const std::size_t i : carried) {
            for (const std::size_t j : carried) joint.covariance.push_back(checked.covariance[i][j]);
        }
        add_joint_prior(joint, problem_);
        all.push_back(std::move(joint));
    }
    return all;
}

double Columns::add_effects(const SightRow& row, std::vector<adjust::Term>& terms) {
    const auto setup = static_cast<std::size_t>(row.setup);
    double known = 0;
    for (const Active& active : active(setup, row.stretch)) {
        const bool of_instrument = active.effect->scope == Scope::Instrument;
        const Owner owner = {of_instrument ? Owner::Kind::InstrumentEffect : Owner::Kind::SetupEffect,
                             of_instrument ? book_.setups[setup].instrument_at : row.setup, active.effect};
        known += add_parameter(active.prior, active.checked, *active.column, owner,
                               active.effect->coefficient(sights_.setups[setup], row.terms), terms);
    }
    if (row.staff < 0) return known;
    for (StaffParameter& staff : of_staffs_[static_cast<std::size_t>(row.staff)]) {
        const double coefficient = staff_coefficient(staff.effect, row.terms.r, row.terms.sign);
        known += add_parameter(staff.effect.prior, false, staff.column,
                               {Owner::Kind::StaffEffect, row.staff, nullptr}, coefficient, terms);
    }
    return known;
}

}  // namespace fallwright
