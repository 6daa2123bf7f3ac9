// How large a misclosure may be: rules of the form a sqrt(n).
//
//   sets    a sqrt(N), N set-ups of the run
//   km      a sqrt(K), K kilometres: one way for a section or an out-and-back run, the whole way for a loop
//   model   1.96 standard deviations of the misclosure as the model predicts it (95 % of sound work lies
//           inside); computed by model, not here. The default.
// The square root holds because errors of equal, independent steps add as squares. a is in millimetres
// (per sqrt(set-up) or per sqrt(km)) whatever the book's unit.
//
// Some published tables limit a standard deviation or a single running's distance from the mean. Those rows
// are kept and listed, marked as what they are, and never offered as a limit: a misclosure may exceed them in
// sound work.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "preset/preset.h"
#include "quantity/unit.h"

namespace fallwright::preset {

struct MisclosureRule {
    enum class By : std::uint8_t { Sets, Km, Model };
    std::string name;
    By by = By::Model;
    double a_mm = 0;  // unused by Model
};

// Metres, 0 or more, for a run of `sets` set-ups and `km` kilometres; a count below 0 is taken as 0. `by` is
// not Model.
double allowed_m(const MisclosureRule& rule, int sets, double km);

// The rule in words, in the units of the book: "12 mm x sqrt(km)" is "0.0499 ft x sqrt(miles)" in feet.
std::string rule_text(const MisclosureRule& rule, Unit unit);

enum class Criterion : std::uint8_t {
    Misclosure,         // a limit: offered
    StandardDeviation,  // of a levelled difference after adjustment, mm per sqrt(km)
    FromMean            // distance of one running from the mean of all runnings
};

struct MisclosurePreset {
    std::string_view name;
    MisclosureRule::By by = MisclosureRule::By::Km;
    double a_mm = 0;
    Criterion criterion = Criterion::Misclosure;
    std::string_view use;
    Source source;

    MisclosureRule rule() const { return {std::string(name), by, a_mm}; }
};

// All rows, criteria that are no limits included.
std::span<const MisclosurePreset> misclosure_presets();

// The limit of that name; null where there is none, or where the name is a criterion that is no limit.
const MisclosurePreset* find_misclosure(std::string_view name);

// The default rule, named "model".
MisclosureRule model_rule();

void list_misclosure(std::vector<Listed>& all);

}  // namespace fallwright::preset
