#include "model/columns.h"

namespace fallwright {

Columns::Columns(const Book& book, const Sights& sights, const Where& where, adjust::Problem& problem)
    : book_(book),
      sights_(sights),
      where_(where),
      problem_(problem),
      of_setups_(book.setups.size()),
      active_(book.setups.size()),
      active_stretch_(book.setups.size(), -1) {
    for (const Staff& staff : book.staffs) {
        std::vector<StaffParameter> parameters;
        for (const StaffEffect& effect : staff_effects(staff))
            parameters.push_back({effect, {effect.prior, no_column}});
        of_staffs_.push_back(std::move(parameters));
    }
}

adjust::Column Columns::add(const Owner& owner) {
    owners_.push_back(owner);
    return problem_.add_column();
}

std::vector<Parameter>& Columns::instrument_parameters(std::size_t instrument, std::int32_t stretch) {
    std::vector<Parameter>& parameters = of_instruments_[{instrument, stretch}];
    parameters.resize(instrument_effects().size());
    return parameters;
}

std::vector<Parameter>& Columns::setup_parameters(std::size_t setup) {
    std::vector<Parameter>& parameters = of_setups_[setup];
    parameters.resize(setup_effects().size());
    return parameters;
}

const std::vector<Columns::Active>& Columns::active(std::size_t setup, std::int32_t stretch) {
    std::vector<Active>& active = active_[setup];
    if (active_stretch_[setup] == stretch) return active;
    active_stretch_[setup] = stretch;
    active.clear();
    const SetupTerms& terms = sights_.setups[setup];
    std::vector<Parameter>& shared =
        instrument_parameters(static_cast<std::size_t>(book_.setups[setup].instrument_at), stretch);
    for (std::size_t i = 0; i < instrument_effects().size(); ++i) {
        const Effect* effect = instrument_effects()[i];
        const Prior prior = effect->prior(terms);
        if (!prior.present) continue;
        shared[i].prior = prior;
        active.push_back({effect, &shared[i]});
    }
    std::vector<Parameter>& own = setup_parameters(setup);
    std::vector<Parameter>& tripod = setup_parameters(static_cast<std::size_t>(where_.tripods[setup]));
    for (std::size_t i = 0; i < setup_effects().size(); ++i) {
        const Effect* effect = setup_effects()[i];
        const Prior prior = effect->prior(terms);
        if (!prior.present) continue;
        Parameter& parameter = effect->scope == Scope::Tripod ? tripod[i] : own[i];
        parameter.prior = prior;
        active.push_back({effect, &parameter});
    }
    return active;
}

double Columns::add_parameter(Parameter& parameter, const Owner& owner, double coefficient,
                              std::vector<adjust::Term>& terms) {
    if (coefficient == 0) return 0;
    const bool exact = !parameter.prior.free && parameter.prior.sd == 0;
    if (!exact) {
        if (parameter.column == no_column) {
            parameter.column = add(owner);
            if (!parameter.prior.free) problem_.add_prior(parameter.column, 0, parameter.prior.sd);
        }
        terms.push_back({parameter.column, coefficient});
    }
    return coefficient * parameter.prior.value;
}

double Columns::add_effects(const SightRow& row, std::vector<adjust::Term>& terms) {
    const auto setup = static_cast<std::size_t>(row.setup);
    double known = 0;
    for (const Active& active : active(setup, row.stretch)) {
        const bool of_instrument = active.effect->scope == Scope::Instrument;
        const Owner owner = {of_instrument ? Owner::Kind::InstrumentEffect : Owner::Kind::SetupEffect,
                             of_instrument ? book_.setups[setup].instrument_at : row.setup, active.effect};
        known += add_parameter(*active.parameter, owner,
                               active.effect->coefficient(sights_.setups[setup], row.terms), terms);
    }
    if (row.staff < 0) return known;
    for (StaffParameter& staff : of_staffs_[static_cast<std::size_t>(row.staff)]) {
        const double coefficient = staff_coefficient(staff.effect, row.terms.r, row.terms.sign);
        known += add_parameter(staff.parameter, {Owner::Kind::StaffEffect, row.staff, nullptr}, coefficient,
                               terms);
    }
    return known;
}

}  // namespace fallwright
