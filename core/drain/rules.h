// rules: what the rules of self-cleansing want of a pipe, and what it has, side by side.
//
// A rule that is published and speaks of the pipe is met, or the pipe is flatter (or, where the rule says so,
// steeper) than it. A rule from memory gives a hint and no verdict. A rule that does not speak of the pipe,
// or lacks what it goes by, does not apply, and why is said. Meeting a rule is no promise that a drain keeps
// clean.
//
// Nominal bores: a pipe within bore_margin of a table's size counts as that size, the nearest one where two
// are near (a "110" pipe of 103.6 mm is a 100 mm pipe). A velocity is looked at where the water flows at the
// flow given, else full bore, which is that half full as well; a flow above the greatest runs full.
// wants_fall is the least fall at which the rule would be met, everything else unchanged, by hydraulics.h.
// Compared as printed: falls to 1e-7, velocities and drags to 6 figures. Metres, m3/s, ratios. NaN: not told.
// Pure.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "drain/hydraulics.h"
#include "preset/self_cleansing.h"

namespace fallwright::drain {

// A table's size is meant by a bore that differs from it by this share.
constexpr double bore_margin = 0.06;

// One pipe as far as rules ask. flow: at the peak. closets: WCs that drain to it; negative: not told.
struct CleansingCase {
    double bore = 0, fall = 0;
    Friction friction;
    double flow = NAN;
    int closets = -1;
};

enum class Cleansing : std::uint8_t { Met, Flatter, Steeper, Hint, NotApplicable };

// "met", "flatter", "steeper", "hint", "not-applicable".
std::string_view cleansing_word(Cleansing verdict);

// One rule, held against one pipe.
struct CleansingVerdict {
    const preset::CleansingRule* rule = nullptr;
    Cleansing verdict = Cleansing::NotApplicable;
    // What the comparison gave, also where it is a hint only; meaningless where the rule does not apply.
    bool flatter = false, steeper = false;
    preset::Provenance provenance = preset::Provenance::Published;  // of the figure used
    double wants_fall = NAN, most_fall = NAN;                       // least and, if any, steepest
    double wants_velocity = NAN, has_velocity = NAN;
    double wants_drag = NAN, has_drag = NAN;
    int closets = 0;          // that the rule asks for, where it is not known how many there are
    double meets_from = NAN;  // the next usual bore at which this fall meets the rule
    std::string why;          // why it does not apply
};

// `unit` decides which sizes are usual and how lengths are said.
CleansingVerdict hold_against(const preset::CleansingRule& rule, const CleansingCase& pipe, Unit unit);
// All rules of the presets, in their order.
std::vector<CleansingVerdict> all_rules(const CleansingCase& pipe, Unit unit);

// "1 WC", "5 WCs".
std::string closets_words(int closets);

// One sentence for people: "flatter than Maguire's rule (R. Chudley ..., 8th) for this bore: it wants 1 in
// 60, this is 1 in 160; a 375 mm pipe at this fall meets it".
std::string cleansing_sentence(const CleansingVerdict& verdict, const CleansingCase& pipe, Unit unit);

}  // namespace fallwright::drain
