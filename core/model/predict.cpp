#include "model/predict.h"

#include <cmath>
#include <utility>

#include "effect/staff_effects.h"
#include "model/build.h"

namespace fallwright {

namespace {

constexpr double one_degree = 0.017453292519943295;  // radians a staff leans

}  // namespace

// A prediction in the making: a known part, a sum of columns, and what no reading carries.
struct Predictor::Sum {
    double value = 0;
    double variance = 0;
    std::vector<adjust::Term> terms;
};

Predictor::Predictor(const Book& book, const Where& where, const Model& model)
    : book_(book), where_(where), model_(model), curvature_(book) {}

Prediction Predictor::read(std::size_t setup, const SightPlace& place, const ForeseenLevel& level,
                           std::int32_t staff) const {
    return predict(setup, model_.sights.setups[setup], false, place, level, staff);
}

Prediction Predictor::read_on(const std::array<double, 2>& grades, std::size_t setup, const SightPlace& place,
                              const ForeseenLevel& level, std::int32_t staff) const {
    SetupTerms terms = model_.sights.setups[setup];
    terms.g = grades;
    terms.matched = {false, false};
    terms.shown = {};
    Prediction read = predict(setup, terms, true, place, level, staff);
    const double turned = book_.setups[setup].head_sd;
    read.sd = std::sqrt(read.sd * read.sd + turned * turned);
    return read;
}

double Predictor::reading_noise(const std::array<double, 2>& grades, std::size_t setup, double r,
                                double d) const {
    const InstrumentErrors& errors = *model_.sights.setups[setup].errors;
    const double steepest = std::sqrt(grades[0] * grades[0] + grades[1] * grades[1]);
    const double far = errors.sd_per_m * d;
    const double lean = r * steepest * one_degree;
    return std::sqrt(errors.reading_sd * errors.reading_sd + far * far + lean * lean);
}

// The height of the tripod's plane; a set-up in which nothing is read yet may stand on a tripod that has one.
void Predictor::add_plane(std::size_t setup, Sum& sum) const {
    const auto root = static_cast<std::size_t>(where_.tripods[setup]);
    const bool own = model_.plane_columns[setup] != no_column;
    const std::size_t from = own ? setup : root;
    sum.value += model_.planes[from].level;
    if (model_.plane_columns[from] == no_column) return;
    sum.terms.push_back({model_.plane_columns[from], 1});
    const adjust::Column head = model_.effect_columns.heads[from];
    if (head != no_column) sum.terms.push_back({head, 1});
    const double turned = book_.setups[setup].head_sd;
    if (!own && root != setup) sum.variance += turned * turned;
}

void Predictor::add_effect(const Effect& effect, const Prior& prior, adjust::Column column,
                           const SetupTerms& terms, const SightTerms& sight, Sum& sum) const {
    const double coefficient = effect.coefficient(terms, sight);
    if (!prior.present || coefficient == 0) return;
    sum.value += coefficient * prior.value;
    if (column != no_column) {
        sum.value += coefficient * model_.solution.x[static_cast<std::size_t>(column)];
        sum.terms.push_back({column, coefficient});
    } else {
        sum.variance += prior.free ? NAN : coefficient * coefficient * prior.sd * prior.sd;
    }
}

void Predictor::add_effects(std::size_t setup, const SetupTerms& terms, bool set_anew,
                            const SightTerms& sight, Sum& sum) const {
    const ColumnIndex& index = model_.effect_columns;
    const auto instrument = static_cast<std::size_t>(book_.setups[setup].instrument_at);
    const std::int32_t stretch = first_stretch(model_, setup);
    const auto shared = index.instruments.find({instrument, stretch});
    const CheckedErrors* checked = model_.sights.checked_in(instrument, stretch);
    for (std::size_t i = 0; i < instrument_effects().size(); ++i) {
        const bool carried = shared != index.instruments.end();
        const Effect& effect = *instrument_effects()[i];
        add_effect(effect, checked_prior(checked, i, effect, terms), carried ? shared->second[i] : no_column,
                   terms, sight, sum);
    }
    const auto tripod = static_cast<std::size_t>(where_.tripods[setup]);
    for (std::size_t i = 0; i < setup_effect_count; ++i) {
        const Effect* effect = setup_effects()[i];
        const bool drawn_anew = set_anew && (effect == grade_setting(0) || effect == grade_setting(1));
        const std::size_t owner = effect->scope == Scope::Tripod ? tripod : setup;
        add_effect(*effect, effect->prior(terms), drawn_anew ? no_column : index.setups[owner][i], terms,
                   sight, sum);
    }
}

// The staff's errors stand on the left of the row, so they add to the figure read.
void Predictor::add_staff(std::int32_t staff, double r, Sum& sum) const {
    if (staff < 0) return;
    const auto which = static_cast<std::size_t>(staff);
    const std::vector<StaffEffect> effects = staff_effects(book_.staffs[which]);
    for (std::size_t i = 0; i < effects.size(); ++i) {
        const double coefficient = staff_coefficient(effects[i], r, 1);
        const Prior& prior = effects[i].prior;
        const adjust::Column column = model_.effect_columns.staffs[which][i];
        sum.value += coefficient * prior.value;
        if (coefficient == 0) continue;
        if (column != no_column) {
            sum.value += coefficient * model_.solution.x[static_cast<std::size_t>(column)];
            sum.terms.push_back({column, coefficient});
        } else {
            sum.variance += coefficient * coefficient * prior.sd * prior.sd;
        }
    }
}

Foreseen Predictor::foresee(std::size_t setup, const SightPlace& place, const ForeseenLevel& level,
                            std::int32_t staff) const {
    return foresee_on(setup, model_.sights.setups[setup], false, place, level, staff);
}

Foreseen Predictor::foresee_on(std::size_t setup, const SetupTerms& terms, bool set_anew,
                               const SightPlace& place, const ForeseenLevel& level,
                               std::int32_t staff) const {
    const SightTerms sight = {place.u, place.v, place.d, 0, 1, place.has_uv};
    if (!place.has_uv && !terms.level()) return {NAN, NAN, {}};
    Sum sum;
    if (!place.has_uv) {
        const double towards = terms.errors->own_tilt_sd() * place.d;  // direction not known
        sum.variance += towards * towards;
    }
    add_plane(setup, sum);
    sum.value +=
        (terms.matched[0] ? 0 : terms.g[0] * place.u) + (terms.matched[1] ? 0 : terms.g[1] * place.v);
    add_effects(setup, terms, set_anew, sight, sum);
    sum.value += curvature_.at(place.d) - level.constant;
    for (const PointTerm& term : level.sum) {
        const auto point = static_cast<std::size_t>(term.point);
        sum.value -= term.coefficient * model_.levels[point].level;
        if (model_.level_columns[point] != no_column)
            sum.terms.push_back({model_.level_columns[point], -term.coefficient});
    }
    add_staff(staff, sum.value, sum);
    return {sum.value, sum.variance, std::move(sum.terms)};
}

Prediction Predictor::predict(std::size_t setup, const SetupTerms& terms, bool set_anew,
                              const SightPlace& place, const ForeseenLevel& level, std::int32_t staff) const {
    const Foreseen seen = foresee_on(setup, terms, set_anew, place, level, staff);
    if (std::isnan(seen.staff)) return {NAN, NAN};
    const double variance = model_.solution.variance_of(seen.terms) + seen.variance;
    if (std::isnan(variance)) return {NAN, NAN};
    return {seen.staff, std::sqrt(variance)};
}

}  // namespace fallwright
