#include "preset/tolerance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr double open = TolerancePreset::open;

constexpr Source pavement{
    "UK Specification for Highway Works, table 7/1, as quoted by a thesis (its table 5.4) and by a county's "
    "specification of residential roads",
    "undated", Provenance::Published};
constexpr Source pavement_more{"UK Specification for Highway Works, series 700", "undated",
                               Provenance::FromMemory};
constexpr Source rolling{
    "UK Specification for Highway Works, table 7/2; which group of surfaces a column is for is from memory",
    "November 2006", Provenance::FromMemory};
constexpr Source county{"North Yorkshire Council, specification of residential roads, s.07-01(d)", "undated",
                        Provenance::Published};
constexpr Source reinstatement{
    "HAUC(UK), Specification for the reinstatement of openings in highways, as-laid profile", "undated",
    Provenance::Published};
constexpr Source series_1100{"Specification for road works (Ireland), series 1100; NBS Q10 agrees for kerbs",
                             "December 2010", Provenance::Published};
constexpr Source access_board{
    "US Access Board, Dimensional tolerances in construction and for surface accessibility, final report",
    "2011", Provenance::Published};
constexpr Source carmel{"Carmel Area Wastewater District (California), code, sewer grade", "undated",
                        Provenance::Published};
constexpr Source document_m{"Approved Document M, volume 2, paragraph 1.26", "undated",
                            Provenance::Published};

constexpr std::string_view finished = "|finished|surface course|surface|";
constexpr std::string_view binder = "|binder course|binder|";

constexpr TolerancePreset level(std::string_view name, std::string_view table, std::string_view surfaces,
                                double below, double above, std::string_view use, const Source& source) {
    return {name, table, surfaces, below, above, open, open, open, {}, use, source};
}

constexpr TolerancePreset straightedge(std::string_view name, std::string_view table,
                                       std::string_view surfaces, double gap, double over,
                                       std::string_view use, const Source& source) {
    return {name, table, surfaces, open, open, open, gap, over, {}, use, source};
}

constexpr TolerancePreset steepest(std::string_view name, double fall, std::string_view use,
                                   const Source& source) {
    return {name, "", "", open, open, fall, open, open, {}, use, source};
}

// Neither off its level nor falling back.
constexpr TolerancePreset sewer(std::string_view name, double off, std::string_view use,
                                const Source& source) {
    return {name, "", "|laid|", -off, off, open, open, open, {}, use, source, 0};
}

using Counts = std::array<IrregularityCount, 4>;
constexpr Counts counts(int four_300, int four_75, int seven_300, int seven_75) {
    return {{{4, 300, four_300}, {4, 75, four_75}, {7, 300, seven_300}, {7, 75, seven_75}}};
}
constexpr Counts counts_a = counts(20, 9, 2, 1);
constexpr Counts counts_b = counts(40, 18, 4, 2);  // surfaces of B, and all else of A
constexpr Counts counts_b_other = counts(60, 27, 6, 3);

constexpr TolerancePreset counted(std::string_view name, std::string_view table, std::string_view surfaces,
                                  const Counts& most, std::string_view use) {
    return {name, table, surfaces, open, open, open, open, open, most, use, rolling};
}

constexpr std::string_view layer_use = "level of a pavement layer";

constexpr std::array<TolerancePreset, 30> table = {{
    level("pavement-surface", "pavement", finished, -6, 6, layer_use, pavement),
    level("pavement-binder", "pavement", binder, -6, 6, layer_use, pavement),
    level("pavement-base", "pavement", "|base|road base|roadbase|", -15, 15, layer_use, pavement),
    level("pavement-sub-base", "pavement", "|sub-base|subbase|", -30, 10, layer_use, pavement),
    level("pavement-capping", "pavement", "|capping|", -30, 20, layer_use, pavement),
    level("pavement-formation", "pavement", "|formation|", -30, 20, layer_use, pavement),
    level("pavement-surface-at-channel", "", "", 0, 10, "surface beside a drainage channel", pavement_more),
    level("pavement-base-no-binder", "", "", -8, 8, "top of the base where no binder course lies on it",
          pavement_more),
    level("pavement-sub-base-concrete", "", "", -10, 10, "sub-base under concrete laid in one pass",
          pavement_more),
    straightedge("straightedge-surface", "straightedge", finished, 3, 3,
                 "adopted roads, along the kerb and at right angles to the centre line", county),
    straightedge("straightedge-binder", "straightedge", binder, 6, 3,
                 "adopted roads, along the kerb and at right angles to the centre line", county),
    counted("rolling-a-surface", "rolling-a", finished, counts_a, "carriageways, category A"),
    counted("rolling-a-other", "rolling-a", binder, counts_b,
            "lay-bys, service areas, binder courses, category A"),
    counted("rolling-b-surface", "rolling-b", finished, counts_b, "carriageways, category B"),
    counted("rolling-b-other", "rolling-b", binder, counts_b_other,
            "lay-bys, service areas, binder courses, category B"),
    level("reinstatement-edge", "", "", -6, 6, "edge of a reinstatement against the road beside it",
          reinstatement),
    level("reinstatement-feature", "", "", -6, 6, "a fixed feature against the road around it",
          reinstatement),
    level("reinstatement-drainage", "", "", -6, 0, "a drainage feature against the road around it",
          reinstatement),
    level("reinstatement-flush-kerb", "", "", 0, 6, "a flush kerb at a crossing", reinstatement),
    {"kerb", "", "", -6, 6, open, 3, 3, {}, "level of a kerb, and under a straightedge", series_1100},
    {"block-paving", "", "", -10, 10, open, 5, 3, {}, "footways of blocks", series_1100},
    straightedge("footway", "", "", 5, 3, "flexible and in-situ footways", series_1100),
    level("us-slab-on-ground", "", "", -19.05, 19.05,
          "top of a slab on ground, 3/4 in, after the figures of ACI 117", access_board),
    steepest("us-walk", 0.05, "running slope of a walk, 1 in 20; a design of 1 in 25 leaves room",
             access_board),
    steepest("us-ramp", 1.0 / 12, "running slope of a ramp, 1 in 12; a design of 7.5 % leaves room",
             access_board),
    steepest("us-cross-slope", 1.0 / 48, "cross slope of a walk, on a line drawn across it", access_board),
    steepest("uk-ramp-10", 1.0 / 20, "a ramp's flight of 10 m going", document_m),
    steepest("uk-ramp-5", 1.0 / 15, "a ramp's flight of 5 m going", document_m),
    sewer("us-sewer-grade", 12.7, "sewers: off grade by over 1/2 in is relaid, none may fall back", carmel),
    steepest("uk-ramp-2", 1.0 / 12, "a ramp's flight of 2 m going", document_m),
}};

std::string_view sign(double mm) {
    return mm > 0 ? "+" : "";
}

std::string level_text(const TolerancePreset& row) {
    std::string out = "level ";
    if (row.below_mm == -row.above_mm) {
        out += "+/-";
    } else {
        out += sign(row.below_mm);
        append_trimmed(out, row.below_mm, 2);
        out += " to ";
        out += sign(row.above_mm);
    }
    append_trimmed(out, row.above_mm, 2);
    return out + " mm";
}

std::string fall_text(const TolerancePreset& row) {
    std::string out;
    if (!std::isnan(row.fall_min)) out = "no backfall";
    if (std::isnan(row.fall_max)) return out;
    out += out.empty() ? "fall at most 1 in " : ", fall at most 1 in ";
    append_trimmed(out, 1 / row.fall_max, 2);
    return out;
}

std::string gap_text(const TolerancePreset& row) {
    std::string out;
    append_trimmed(out, row.gap_mm, 2);
    out += " mm under a straightedge of ";
    append_trimmed(out, row.over_m, 3);
    return out + " m";
}

std::string counts_text(const TolerancePreset& row) {
    std::string out;
    for (const IrregularityCount& each : row.irregularities) {
        if (!out.empty()) out += ", ";
        out += std::to_string(each.most) + " of ";
        append_trimmed(out, each.size_mm, 2);
        out += " mm in ";
        append_trimmed(out, each.length_m, 2);
        out += " m";
    }
    return out;
}

std::string figures_text(const TolerancePreset& row) {
    std::string out;
    const auto add = [&out](bool there, std::string (*text)(const TolerancePreset&),
                            const TolerancePreset& of) {
        if (!there) return;
        if (!out.empty()) out += "; ";
        out += text(of);
    };
    add(!std::isnan(row.below_mm), level_text, row);
    add(!std::isnan(row.fall_min) || !std::isnan(row.fall_max), fall_text, row);
    add(!std::isnan(row.gap_mm), gap_text, row);
    add(!row.irregularities.empty(), counts_text, row);
    return out;
}

}  // namespace

bool TolerancePreset::serves(std::string_view surface) const {
    std::string word = "|";
    word += surface;
    word += "|";
    return surfaces.find(word) != std::string_view::npos;
}

std::span<const TolerancePreset> tolerance_presets() {
    return table;
}

const TolerancePreset* find_tolerance(std::string_view name) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [name](const TolerancePreset& row) { return row.name == name; });
    return found == table.end() ? nullptr : &*found;
}

bool is_tolerance_table(std::string_view name) {
    return !name.empty() && std::any_of(table.begin(), table.end(),
                                        [name](const TolerancePreset& row) { return row.table == name; });
}

const TolerancePreset* find_tolerance(std::string_view name, std::string_view surface) {
    const auto found = std::find_if(table.begin(), table.end(), [&](const TolerancePreset& row) {
        return row.table == name && row.serves(surface);
    });
    return name.empty() || found == table.end() ? nullptr : &*found;
}

void list_tolerances(std::vector<Listed>& all) {
    for (const TolerancePreset& row : table) {
        std::string use(row.use);
        if (!row.table.empty()) {
            use += "; one of the table ";
            use += row.table;
        }
        all.push_back({std::string(row.name), figures_text(row), std::move(use), row.source});
    }
}

}  // namespace fallwright::preset
