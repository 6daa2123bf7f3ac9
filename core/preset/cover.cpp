#include "preset/cover.h"

#include <array>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr Source sewers{
    "Sewers for Adoption, least cover to the crown of gravity sewers without protection, as quoted by a "
    "precast drainage trade body",
    "2018", Provenance::Published};

constexpr std::array<CoverPreset, 5> table = {{
    {"cover-garden", 0.35, "garden or path, no vehicles", sewers},
    {"cover-drive", 0.5, "drive, parking or yard, nothing over 7.5 t can get in", sewers},
    {"cover-narrow-street", 0.9, "drive, parking or narrow street, few vehicles over 7.5 t", sewers},
    {"cover-field", 0.9, "farmed land and public open space", sewers},
    {"cover-highway", 1.2, "any other highway or parking, vehicles over 7.5 t as they come", sewers},
}};

}  // namespace

std::span<const CoverPreset> cover_presets() {
    return table;
}

const CoverPreset* find_cover(std::string_view name) {
    for (const CoverPreset& preset : table) {
        if (preset.name == name) return &preset;
    }
    return nullptr;
}

void list_cover(std::vector<Listed>& all) {
    for (const CoverPreset& preset : table) {
        std::string figures = trimmed(preset.least, 2);
        figures += " m over the crown";
        all.push_back(
            {std::string(preset.name), std::move(figures), std::string(preset.above), preset.source});
    }
}

}  // namespace fallwright::preset
