#include "preset/roughness.h"

#include <string>

#include "base/print.h"

namespace fallwright::preset {

namespace {

// The finer class, up to an index; the other is twice as coarse in resolution and interval.
struct Step {
    double index, resolution_mm;
};
constexpr std::array<Step, 6> steps = {{{3, 0.5}, {5, 1}, {7, 1.5}, {10, 2}, {15, 3}, {20, 4}}};
constexpr double interval_1 = 0.25;

constexpr Source paper{
    "World Bank Technical Paper 46, staff-and-level survey; errors of the index by the scope of ASTM E1364",
    "1986 and 2017", Provenance::FromMemory};

}  // namespace

std::array<StaffClass, 2> staff_classes(double index) {
    double resolution = steps.back().resolution_mm;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        if (index <= step->index) resolution = step->resolution_mm;
    }
    return {{{1, 0.02, interval_1, resolution}, {2, 0.05, longest_interval_m, 2 * resolution}}};
}

void list_roughness(std::vector<Listed>& all) {
    for (std::size_t i = 0; i < 2; ++i) {
        std::string figures;
        for (const Step& step : steps) {
            if (!figures.empty()) figures += ", ";
            append_trimmed(figures, staff_classes(step.index).at(i).resolution_mm, 2);
            figures += " mm up to ";
            append_trimmed(figures, step.index, 0);
        }
        figures += " m/km; every ";
        append_trimmed(figures, staff_classes(0).at(i).interval_m, 2);
        figures += " m";
        all.push_back({i == 0 ? "staff-profile-class-1" : "staff-profile-class-2", figures,
                       "resolution of a staff for a roughness index; shown beside it, judges nothing",
                       paper});
    }
}

}  // namespace fallwright::preset
