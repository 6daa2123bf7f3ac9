#include "preset/bulking.h"

#include <array>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr Source alaska{
    "Alaska Department of Transportation 1983 and Church 1981, as compiled by a page of earthwork figures",
    "1983", Provenance::Published};
constexpr Source fhwa{"US Federal Highway Administration, as compiled by a page of earthwork figures", "2007",
                      Provenance::Published};
constexpr Source compiled{"A page of earthwork figures, which names no source for these", "undated",
                          Provenance::Published};

constexpr std::array<BulkingPreset, 20> table = {{
    {"bulking-sandy-gravel", 0.05, "sandy gravel", alaska},
    {"bulking-sand", 0.05, "sand", alaska},
    {"bulking-silt", 0.35, "silt", alaska},
    {"bulking-loess", 0.35, "loess", alaska},
    {"bulking-granite", 0.72, "granite", alaska},
    {"bulking-limestone", 0.63, "limestone", alaska},
    {"bulking-sandstone", 0.61, "sandstone", alaska},
    {"bulking-siltstone", 0.45, "siltstone", alaska},
    {"bulking-siliceous-shale", 0.40, "siliceous shale", alaska},
    {"bulking-rock-3-earth-1", 0.25, "three parts of rock, one of earth", alaska},
    {"bulking-rock-1-earth-1", 0.29, "as much rock as earth", alaska},
    {"bulking-rock-1-earth-3", 0.26, "one part of rock, three of earth", alaska},
    {"bulking-andesite", 0.67, "andesite", fhwa},
    {"bulking-basalt", 0.64, "basalt", fhwa},
    {"bulking-clay-damp", 0.40, "damp clay", compiled},
    {"bulking-clay-dry", 0.35, "dry clay; the same page lists 50 % elsewhere", compiled},
    {"bulking-clay-dry-50", 0.50, "dry clay, the larger figure", compiled},
    {"bulking-gravel-dry", 0.15, "dry gravel", compiled},
    {"bulking-pit-run", 0.08, "gravel as dug from the pit", compiled},
    {"bulking-gravel-wet", 0.05, "wet gravel", compiled},
}};

}  // namespace

std::span<const BulkingPreset> bulking_presets() {
    return table;
}

const BulkingPreset* find_bulking(std::string_view name) {
    for (const BulkingPreset& preset : table) {
        if (preset.name == name) return &preset;
    }
    return nullptr;
}

void list_bulking(std::vector<Listed>& all) {
    constexpr double percent = 100;
    for (const BulkingPreset& preset : table) {
        std::string figures = trimmed(preset.ratio * percent, 1);
        figures += " % more room than in place";
        all.push_back(
            {std::string(preset.name), std::move(figures), std::string(preset.material), preset.source});
    }
}

}  // namespace fallwright::preset
