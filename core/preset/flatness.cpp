#include "preset/flatness.h"

#include <cmath>
#include <limits>
#include <string>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr double mm_per_m = 1000;
constexpr double same_base = 0.025;  // of a base that stands alone
constexpr double quarter_inch_mm = 6.35;
constexpr double ten_feet = 3.048;

constexpr Source din{
    "DIN 18202, table 3, as extended in a handbook for screed and flooring trades (two copies compared)",
    "undated", Provenance::Published};
constexpr Source tr34{
    "Concrete Society TR34, table 3.1, figures as quoted on a secondary page; bases and the share of 95 % "
    "from "
    "memory",
    "4th edition", Provenance::FromMemory};
constexpr Source access{
    "Ballast D. K., Dimensional tolerances in construction and for surface accessibility, final report for "
    "the "
    "US Access Board, on ACI 117",
    "2011", Provenance::Published};

constexpr FlatnessCriterion by_base(double at_01, double at_1, double at_4, double at_10, double at_15) {
    return {FlatnessRule::Straightedge,
            {{{0.1, at_01}, {1, at_1}, {4, at_4}, {10, at_10}, {15, at_15}}},
            most_flatness_limits,
            1};
}

constexpr FlatnessCriterion over(FlatnessRule rule, double base, double limit, double share) {
    return {rule, {{{base, limit}}}, 1, share};
}

constexpr FlatnessPreset row(std::string_view name, const FlatnessCriterion& limits, std::string_view use) {
    return {name, {{limits}}, use, din};
}

constexpr FlatnessPreset free_movement(std::string_view name, double e, double f) {
    return {name,
            {{over(FlatnessRule::Difference, 3, e, 0.95), over(FlatnessRule::Change, 0.3, f, 0.95)}},
            "floors of free movement, properties E and F",
            tr34};
}

constexpr std::array<FlatnessPreset, 12> table = {{
    row("din-18202-row-1", by_base(10, 15, 20, 25, 30), "unfinished upper faces of slabs and floors"),
    row("din-18202-row-2", by_base(5, 8, 12, 15, 20),
        "unfinished upper faces that take a screed or other covering, and finished ones of minor rooms"),
    row("din-18202-row-3", by_base(2, 4, 10, 12, 15), "finished floors"),
    row("din-18202-row-4", by_base(1, 3, 9, 12, 15), "finished floors of higher demand"),
    row("din-18202-row-5", by_base(5, 10, 15, 25, 30), "unfinished walls and soffits"),
    row("din-18202-row-6", by_base(3, 5, 10, 20, 25), "finished walls and soffits"),
    row("din-18202-row-7", by_base(2, 3, 8, 15, 20), "finished walls and soffits of higher demand"),
    free_movement("tr34-fm1", 4.5, 1.8),
    free_movement("tr34-fm2", 6.5, 2.0),
    free_movement("tr34-fm3", 8.0, 2.2),
    free_movement("tr34-fm4", 10.0, 2.4),
    {"aci-117-quarter-inch",
     {{over(FlatnessRule::Straightedge, ten_feet, quarter_inch_mm, 1)}},
     "exterior slabs, 1/4 in under 10 ft; not to be interpolated to other bases",
     access},
}};

std::string base_text(double base) {
    std::string text = trimmed(base, 3);
    return text += " m";
}

std::string criterion_text(const FlatnessCriterion& criterion) {
    std::string text(flatness_rule_word(criterion.rule));
    for (std::size_t i = 0; i < criterion.count; ++i) {
        text += (i == 0 ? " " : ", ") + trimmed(criterion.limits[i].limit, 2) + " mm in ";
        text += base_text(criterion.limits[i].base);
    }
    if (criterion.share < 1) text += ", " + trimmed(criterion.share * 100, 1) + " % of all";
    return text;
}

}  // namespace

std::string_view flatness_rule_word(FlatnessRule rule) {
    switch (rule) {
        case FlatnessRule::Difference:
            return "difference";
        case FlatnessRule::Change:
            return "change";
        default:
            return "straightedge";
    }
}

double FlatnessCriterion::limit_m(double base) const {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    if (one_base())
        return std::fabs(base - limits[0].base) <= same_base * limits[0].base ? limits[0].limit / mm_per_m
                                                                              : none;
    for (std::size_t i = 1; i < count; ++i) {
        const FlatnessLimit& from = limits[i - 1];
        const FlatnessLimit& to = limits[i];
        if (!(base >= from.base && base <= to.base)) continue;
        const double along = (base - from.base) / (to.base - from.base);
        return rounded_to(from.limit + along * (to.limit - from.limit), places) / mm_per_m;
    }
    return none;
}

std::span<const FlatnessPreset> flatness_presets() {
    return table;
}

const FlatnessPreset* find_flatness(std::string_view name) {
    for (const FlatnessPreset& preset : table) {
        if (preset.name == name) return &preset;
    }
    return nullptr;
}

void list_flatness(std::vector<Listed>& all) {
    for (const FlatnessPreset& preset : table) {
        std::string figures = criterion_text(preset.criteria[0]);
        if (preset.criteria[1].count > 0) figures += "; " + criterion_text(preset.criteria[1]);
        all.push_back({std::string(preset.name), figures, std::string(preset.use), preset.source});
    }
}

}  // namespace fallwright::preset
