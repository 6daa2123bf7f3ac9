// Cautions: what rules and guidance of several countries say about digging, lasers, chambers and traffic.
//
// A caution reminds; it judges nothing. No depth makes a trench safe, and none is said to need no support:
// the competent person decides at every depth. Limits are local: those of one country are no law in another,
// and where a country's text has no figure there is none here. Facts and figures are the sources', the words
// ours. Lengths in metres; NaN: the source has no such figure.
#pragma once

#include <cmath>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"
#include "quantity/unit.h"

namespace fallwright::preset {

// Figures about excavations, as one country's rules or guidance have them.
struct ExcavationLimits {
    std::string_view name;        // as in a book's rule
    double support = NAN;         // depth from which the text speaks of support
    std::string_view support_is;  // what that figure is: "rule of thumb", ...
    double way_out = NAN;         // depth from which a way out is asked for
    double way_out_within = NAN;  // how near it must be
    double spoil = NAN;           // distance of spoil from the edge
    double air = NAN;             // depth from which air is tested where it may be bad
    double engineered = NAN;      // depth from which an engineer designs the support
    Unit unit = Unit::Metre;      // of the source
    Source source;
};

std::span<const ExcavationLimits> excavation_limits();
// Null where there is none of that name.
const ExcavationLimits* find_excavation_limits(std::string_view name);
// Where a book chooses none: Great Britain's in metres, those of the United States in feet.
const ExcavationLimits& usual_excavation_limits(Unit unit);

// What a caution is about; decides where it stands.
enum class CautionOf : std::uint8_t {
    Inspection,     // of an excavation
    Slopes,         // of its sides, where the limits are those of the United States
    Services,       // under any ground that is broken
    LaserLight,     // of any laser in the book
    ConfinedSpace,  // chambers, deep trenches
    Traffic,        // roads and kerbs
    DrainageDesign  // any drain
};

struct CautionText {
    CautionOf of = CautionOf::Inspection;
    std::string_view code;  // in results
    std::string_view text;
    Source source;
};

std::span<const CautionText> caution_texts();
const CautionText& caution_text(CautionOf of);

void list_cautions(std::vector<Listed>& all);

}  // namespace fallwright::preset
