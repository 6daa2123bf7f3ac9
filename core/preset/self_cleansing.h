// Rules of self-cleansing: the fall, velocity or drag at the wall that somebody wants of a drain, so that it
// carries its load away.
//
// They answer one question in different ways and do not agree; none is a law of nature. A table holds for its
// own pipes (by nominal bore), flows and appliances only. Codes are amended: the edition that governs the
// work comes first, and a rule `hydraulics` in the book overrides. Some published copies print figures that
// cannot be right; they are not taken (10 in at 0.20 %: 0.28 is, and then from memory).
// Metres, m3/s, m/s, N/m2, ratios. Unlimited is infinite, absent NaN.
#pragma once

#include <cmath>
#include <cstdint>
#include <limits>
#include <span>
#include <string_view>
#include <vector>

#include "preset/preset.h"
#include "quantity/unit.h"

namespace fallwright::preset {

// One line of a table: the pipes it is for and what it wants of them.
struct CleansingRow {
    double bore_from = 0, bore_to = 0;  // nominal; equal: one size
    double wants = NAN;                 // a fall, or a velocity
    double steepest = NAN;              // fall that should not be exceeded either
    double flow_from = 0, flow_to = std::numeric_limits<double>::infinity();  // above, up to and including
    int closets = 0;                                                          // WCs that must drain to it
    Provenance provenance = Provenance::Published;
};

// What a rule compares.
enum class CleansingBy : std::uint8_t {
    Fall,        // rows, falls by bore
    FallOfBore,  // 1 in (bore in millimetres / figure)
    Velocity,    // figure, or rows by bore: mean velocity
    Drag,        // figure: mean shear at the wall, N/m2
    FallOfFlow   // figure x (flow in l/s)^(-6/13)
};

// At which flow a velocity is looked at.
enum class CleansingAt : std::uint8_t { Flow, ThirdOfFlow, FullBore };

struct CleansingRule {
    std::string_view name;   // as in a book's rule
    std::string_view title;  // as people call it, after "flatter than"
    CleansingBy by = CleansingBy::Fall;
    double figure = NAN;
    std::span<const CleansingRow> rows = {};
    // Of FallOfBore: bores that the source speaks of.
    double bore_from = 0, bore_to = std::numeric_limits<double>::infinity();
    double least_flow = 0;  // a smaller flow counts as this one
    CleansingAt at = CleansingAt::Flow;
    Unit unit = Unit::Metre;  // of the source
    std::string_view use = {};
    Source source = {};
};

// All rules, in the order in which they are shown.
std::span<const CleansingRule> cleansing_rules();
// Null where there is none of that name.
const CleansingRule* find_cleansing(std::string_view name);

// Sizes of pipes that are usual, for saying which one would meet a rule; common practice, no source.
std::span<const double> usual_bores(Unit unit);

// Peak foul flow of dwellings, m3/s: the table's figures, straight between them; one dwelling is the least.
// Each has a WC, a bath, two basins, a sink and a washing machine. NaN below 1 and above 30.
double foul_flow(double dwellings);

void list_self_cleansing(std::vector<Listed>& all);

}  // namespace fallwright::preset
