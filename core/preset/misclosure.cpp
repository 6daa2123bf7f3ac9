#include "preset/misclosure.h"

#include <array>
#include <cassert>
#include <cmath>

#include "base/print.h"

namespace fallwright::preset {

namespace {

using By = MisclosureRule::By;

constexpr double mm_per_m = 1000;
constexpr double km_per_mile = 1.609344;

constexpr Source slides{"'Levelling (continued)', lecture slides with a level book booked in 1998", "1998",
                        Provenance::Published};
constexpr Source ngs{"US National Geodetic Survey, Standards and requirements for leveling", "undated",
                     Provenance::Published};
constexpr Source fgcc{
    "Federal Geodetic Control Committee, Standards and specifications for geodetic control networks, section "
    "3.5",
    "1984", Provenance::FromMemory};
constexpr Source army{"US Army correspondence course EN0593, Precise differential leveling, paragraph 4-3",
                      "undated", Provenance::Published};
constexpr Source natmap{"Division of National Mapping (Australia), Instructions for first-order levelling",
                        "undated", Provenance::Published};
constexpr Source textbook{"Indian textbook classes of levelling, as quoted by an examination reference text",
                          "undated", Provenance::Published};
constexpr Source usace{
    "US Army Corps of Engineers, EM 1110-1-1005 and EM 1110-1-1004, vertical closure tables", "2007 and 2002",
    Provenance::FromMemory};

constexpr std::string_view section = "a section, levelled once each way; K is one way";
constexpr std::string_view loop = "a loop; K is its whole length";
constexpr std::string_view either = "a line between benchmarks or a loop";
constexpr std::string_view convention = "a line; other texts give other figures for the same words";
constexpr std::string_view sd_only = "a standard deviation criterion, not a misclosure limit";

constexpr MisclosurePreset limit(std::string_view name, double a_mm, std::string_view use,
                                 const Source& source) {
    return {name, By::Km, a_mm, Criterion::Misclosure, use, source};
}

constexpr MisclosurePreset deviation(std::string_view name, double a_mm) {
    return {name, By::Km, a_mm, Criterion::StandardDeviation, sd_only, ngs};
}

constexpr std::array<MisclosurePreset, 29> table = {{
    {"construction-sets-5", By::Sets, 5, Criterion::Misclosure, "site levelling, a rule of thumb", slides},
    deviation("ngs-sd-first-class-1", 0.5),
    deviation("ngs-sd-first-class-2", 0.7),
    deviation("ngs-sd-second-class-1", 1.0),
    deviation("ngs-sd-second-class-2", 1.3),
    deviation("ngs-sd-third", 2.0),
    limit("fgcc-section-first-class-1", 3, section, fgcc),
    limit("fgcc-section-first-class-2", 4, section, fgcc),
    limit("fgcc-section-second-class-1", 6, section, fgcc),
    limit("fgcc-section-second-class-2", 8, section, fgcc),
    limit("fgcc-section-third", 12, section, fgcc),
    limit("fgcc-loop-first-class-1", 4, loop, fgcc),
    limit("fgcc-loop-first-class-2", 5, loop, fgcc),
    limit("fgcc-loop-second-class-1", 6, loop, fgcc),
    limit("fgcc-loop-second-class-2", 8, loop, fgcc),
    limit("fgcc-loop-third", 12, loop, fgcc),
    limit("us-army-second-order", 8.4, either, army),
    {"us-army-second-order-from-mean", By::Km, 9.0, Criterion::FromMean,
     "a running this far from the mean of all is rejected; not a misclosure limit", army},
    limit("australia-first-order", 4, section, natmap),
    limit("india-rough", 100, convention, textbook),
    limit("india-ordinary", 25, convention, textbook),
    limit("india-accurate", 12, convention, textbook),
    limit("india-precise", 6, convention, textbook),
    limit("usace-first-class-1", 3, either, usace),
    limit("usace-first-class-2", 4, either, usace),
    limit("usace-second-class-1", 6, either, usace),
    limit("usace-second-class-2", 8, either, usace),
    limit("usace-third", 12, either, usace),
    limit("usace-construction-layout", 24, either, usace),
}};

// mm per sqrt(km) as feet per sqrt(mile): 8.4 is 0.035.
double feet_per_root_mile(double a_mm) {
    return a_mm / mm_per_m / metres_per_foot * std::sqrt(km_per_mile);
}

}  // namespace

double allowed_m(const MisclosureRule& rule, int sets, double km) {
    assert(rule.by != By::Model);
    const double count = rule.by == By::Sets ? sets : km;
    return rule.a_mm / mm_per_m * std::sqrt(count > 0 ? count : 0.0);
}

std::string rule_text(const MisclosureRule& rule, Unit unit) {
    if (rule.by == By::Model) return "1.96 standard deviations of the misclosure";
    const std::string_view per = rule.by == By::Sets ? "set-ups" : unit == Unit::Foot ? "miles" : "km";
    std::string out;
    if (unit == Unit::Metre) {
        append_trimmed(out, rule.a_mm, 2);
        out += " mm";
    } else {
        append_fixed(
            out, rule.by == By::Sets ? rule.a_mm / mm_per_m / metres_per_foot : feet_per_root_mile(rule.a_mm),
            4);
        out += " ft";
    }
    return out + " x sqrt(" + std::string(per) + ")";
}

std::span<const MisclosurePreset> misclosure_presets() {
    return table;
}

const MisclosurePreset* find_misclosure(std::string_view name) {
    for (const MisclosurePreset& preset : table) {
        if (preset.name == name && preset.criterion == Criterion::Misclosure) return &preset;
    }
    return nullptr;
}

MisclosureRule model_rule() {
    return {"model", By::Model, 0};
}

void list_misclosure(std::vector<Listed>& all) {
    for (const MisclosurePreset& preset : table) {
        all.push_back({std::string(preset.name), rule_text(preset.rule(), Unit::Metre),
                       std::string(preset.use), preset.source});
    }
}

}  // namespace fallwright::preset
