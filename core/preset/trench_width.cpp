#include "preset/trench_width.h"

#include <algorithm>
#include <limits>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr double any = std::numeric_limits<double>::infinity();
constexpr double inch = 0.0254;

constexpr Source en1610{
    "DIN EN 1610, table 1 (its first rows were seen) and table 2, the other rows recalled", "2015",
    Provenance::FromMemory};
constexpr Source astm{"ASTM D2321-05, as quoted by a course on laying pipes in open trenches", "2005",
                      Provenance::Published};
constexpr Source concrete{"Course on laying pipes in open trenches, its rule for concrete pipes", "undated",
                          Provenance::Published};

using Beside = TrenchWidthPreset::Beside;
constexpr std::array<Beside, 5> by_class = {
    {{0.225, 1, 0.40}, {0.350, 1, 0.50}, {0.700, 1, 0.70}, {1.200, 1, 0.85}, {any, 1, 1.00}}};
constexpr std::array<Beside, 5> one_for_all(double factor, double add) {
    const Beside all{any, factor, add};
    return {all, all, all, all, all};
}
constexpr Beside none{0, 0, 0};

constexpr std::array<TrenchWidthPreset, 5> table = {{
    {"trench-en-1610-supported", "the sides are supported", by_class, none, true, en1610},
    {"trench-en-1610-steep", "no support, sides steeper than 60 degrees", by_class, none, true, en1610},
    {"trench-en-1610-flat", "no support, sides at 60 degrees or flatter", one_for_all(1, 0.40), none, true,
     en1610},
    {"trench-astm-d2321",
     "thermoplastic pipe",
     one_for_all(1, 16 * inch),
     {any, 1.25, 12 * inch},
     false,
     astm},
    {"trench-concrete-third", "concrete pipe: a sixth of the pipe on either side", one_for_all(4.0 / 3, 0),
     none, false, concrete},
}};

double beside(const Beside& row, double outside) {
    return row.factor * outside + row.add;
}

std::string said(const Beside& row) {
    std::string text;
    if (row.factor != 1) {
        append_trimmed(text, row.factor, 3);
        text += " x ";
    }
    text += "OD";
    if (row.add == 0) return text;
    text += " + ";
    append_trimmed(text, row.add, 4);
    text += " m";
    return text;
}

std::string figures(const TrenchWidthPreset& preset) {
    std::string text;
    double before = 0;
    for (const Beside& row : preset.by_bore) {
        if (row.largest_bore == before) continue;
        if (!text.empty()) text += ", ";
        text += said(row);
        if (row.largest_bore != any) {
            text += " to bore ";
            append_trimmed(text, row.largest_bore, 3);
        }
        before = row.largest_bore;
    }
    if (preset.or_else.factor != 0) {
        text += " or ";
        text += said(preset.or_else);
        text += ", the larger";
    }
    if (preset.by_depth) text += "; at least 0.8 m from a depth of 1 m, 0.9 m over 1.75 m, 1 m over 4 m";
    return text;
}

double by_depth(double depth) {
    if (depth > width_steps[2]) return 1.00;
    if (depth > width_steps[1]) return 0.90;
    return depth >= width_steps[0] ? 0.80 : 0;
}

}  // namespace

double TrenchWidthPreset::least(double bore, double outside, double depth) const {
    const auto row = std::find_if(by_bore.begin(), by_bore.end(),
                                  [bore](const Beside& each) { return bore <= each.largest_bore; });
    const double width = std::max(beside(row == by_bore.end() ? by_bore.back() : *row, outside),
                                  or_else.factor == 0 ? 0 : beside(or_else, outside));
    return by_depth ? std::max(width, preset::by_depth(depth)) : width;
}

std::span<const TrenchWidthPreset> trench_width_presets() {
    return table;
}

const TrenchWidthPreset* find_trench_width(std::string_view name) {
    for (const TrenchWidthPreset& preset : table) {
        if (preset.name == name) return &preset;
    }
    return nullptr;
}

void list_trench_width(std::vector<Listed>& all) {
    for (const TrenchWidthPreset& preset : table) {
        all.push_back({std::string(preset.name), figures(preset), std::string(preset.use), preset.source});
    }
}

}  // namespace fallwright::preset
