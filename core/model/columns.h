// columns: the parameters of the model and the columns they have in the problem, made when a reading first
// carries them.
//
// Inside model only.
#pragma once

#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "adjust/adjust.h"
#include "effect/staff_effects.h"
#include "model/column_index.h"
#include "model/joint_prior.h"
#include "model/sights.h"

namespace fallwright {

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

// Lazy on purpose: a prior counts as an observation only if some reading carries its column (contract section
// 2), so a column begins with the first reading whose coefficient is not 0.
class Columns {
  public:
    Columns(const Book& book, const Sights& sights, const Where& where, adjust::Problem& problem);

    // A column of the caller's own (levels, planes, feet), with who it belongs to.
    adjust::Column add(const Owner& owner);
    // column: one that add made, or that a parameter has.
    const Owner& owner(adjust::Column column) const { return owners_[static_cast<std::size_t>(column)]; }

    // Terms of one reading's effects, appended; returns what known values add to the right-hand side.
    // Effects whose coefficient is 0 for this reading add nothing and get no column by it.
    double add_effects(const SightRow& row, std::vector<adjust::Term>& terms);

    // What checks say of the instruments, once all readings are in: only then is it known which of their
    // errors some reading carries.
    std::vector<JointPrior> add_checked_priors();

    // The effects of a set-up: of its instrument (stretch of its first reading) and its own.
    // An effect that is there in a set-up, what is believed of its parameter there, and the place of its
    // column, which others may share.
    struct Active {
        const Effect* effect;
        Prior prior;
        adjust::Column* column;
        bool checked;  // the prior is that of a check, together with others: add_checked_priors
    };
    // The effects of a set-up: of its instrument in a stretch, and its own. Valid until the next call: a
    // set-up's readings mostly follow one another, so only the last list is kept.
    const std::vector<Active>& active(std::size_t setup, std::int32_t stretch);

    // Every effect's column, for predictions: only once the rows are made.
    ColumnIndex index() const;

  private:
    // Appends the parameter's term, making its column and prior where it is the first; returns coefficient x
    // value.
    // joint: its prior comes later, together with others.
    double add_parameter(const Prior& prior, bool joint, adjust::Column& column, const Owner& owner,
                         double coefficient, std::vector<adjust::Term>& terms);
    // In the order of the list.
    std::vector<adjust::Column>& instrument_columns(std::size_t instrument, std::int32_t stretch);

    const Book& book_;
    const Sights& sights_;
    const Where& where_;
    adjust::Problem& problem_;
    std::vector<Owner> owners_;  // per column

    // Columns by effect; a map's and a fixed array's places stay where they are.
    std::map<std::pair<std::size_t, std::int32_t>, std::vector<adjust::Column>> of_instruments_;
    std::vector<std::array<adjust::Column, setup_effect_count>> of_setups_;
    // A staff's errors are shared by all set-ups and instruments.
    struct StaffParameter {
        StaffEffect effect;
        adjust::Column column = no_column;
    };
    std::vector<std::vector<StaffParameter>> of_staffs_;
    std::vector<Active> active_;  // of the set-up asked for last
    std::size_t active_setup_ = 0;
    std::int32_t active_stretch_ = -1;
};

}  // namespace fallwright
