#include "preset/preset.h"

#include "preset/bulking.h"
#include "preset/cautions.h"
#include "preset/cover.h"
#include "preset/error_figures.h"
#include "preset/flatness.h"
#include "preset/misclosure.h"
#include "preset/roughness.h"
#include "preset/self_cleansing.h"
#include "preset/tolerance.h"
#include "preset/trench_width.h"

namespace fallwright::preset {

std::string_view provenance_word(Provenance provenance) {
    switch (provenance) {
        case Provenance::Published:
            return "published";
        case Provenance::FromMemory:
            return "from memory";
        default:
            return "common practice, no source";
    }
}

std::vector<Listed> all_presets() {
    std::vector<Listed> all;
    list_misclosure(all);
    list_error_figures(all);
    list_flatness(all);
    list_self_cleansing(all);
    list_cautions(all);
    list_tolerances(all);
    list_roughness(all);
    list_cover(all);
    list_trench_width(all);
    list_bulking(all);
    return all;
}

}  // namespace fallwright::preset
