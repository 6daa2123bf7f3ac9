// columns: the parameters of the model and the columns they have in the problem, made when a reading first
// carries them.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "adjust/adjust.h"
#include "effect/staff_effects.h"
#include "model/sights.h"

namespace fallwright {

constexpr adjust::Column no_column = -1;

// One parameter: value beforehand, and its column where it is not exactly known.
struct Parameter {
    Prior prior;
    adjust::Column column = no_column;
};

// Who a column belongs to, for sentences.
struct Owner {
    enum class Kind : std::uint8_t {
        Point,
        Plane,
        Head,
        InstrumentEffect,
        SetupEffect,
        StaffEffect,
        Foot
    } kind;
    std::int32_t index;  // point, set-up, instrument or staff
    const Effect* effect = nullptr;
};

class Columns {
  public:
    Columns(const Book& book, const Sights& sights, adjust::Problem& problem);

    adjust::Column add(const Owner& owner);
    const Owner& owner(adjust::Column column) const { return owners_[static_cast<std::size_t>(column)]; }

    // Terms of one reading's effects, appended; returns what known values add to the right-hand side.
    double add_effects(const SightRow& row, std::vector<adjust::Term>& terms);

    // The effects of a set-up: of its instrument (stretch of its first reading) and its own.
    struct Active {
        const Effect* effect;
        Parameter* parameter;
    };
    const std::vector<Active>& active(std::size_t setup, std::int32_t stretch);

  private:
    double add_parameter(Parameter& parameter, const Owner& owner, double coefficient,
                         std::vector<adjust::Term>& terms);
    std::vector<Parameter>& instrument_parameters(std::size_t instrument, std::int32_t stretch);

    const Book& book_;
    const Sights& sights_;
    adjust::Problem& problem_;
    std::vector<Owner> owners_;
    // Parameters live in maps and in vectors that never grow again, so that pointers to them stay.
    std::map<std::pair<std::size_t, std::int32_t>, std::vector<Parameter>> of_instruments_;
    std::vector<std::vector<Parameter>> of_setups_;
    struct StaffParameter {
        StaffEffect effect;
        Parameter parameter;
    };
    std::vector<std::vector<StaffParameter>> of_staffs_;
    std::vector<std::vector<Active>> active_;
    std::vector<std::int32_t> active_stretch_;
};

}  // namespace fallwright
