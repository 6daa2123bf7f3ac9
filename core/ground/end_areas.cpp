#include "ground/end_areas.h"

#include <cmath>

namespace fallwright {

namespace {

constexpr double equal_intervals = 1e-6;  // as a share of one

bool usable(std::span<const SectionArea> sections) {
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const bool rises = i == 0 || sections[i].ch > sections[i - 1].ch;
        if (!rises || !(sections[i].area >= 0)) return false;
    }
    return true;
}

double between(const SectionArea& a, const SectionArea& b, ZeroEnds zero_ends) {
    const bool runs_out = (a.area == 0) != (b.area == 0);
    const double parts = runs_out && zero_ends == ZeroEnds::Pyramids ? 3 : 2;
    return (b.ch - a.ch) * (a.area + b.area) / parts;
}

bool halves(std::span<const SectionArea> three) {
    const double first = three[1].ch - three[0].ch;
    const double second = three[2].ch - three[1].ch;
    return std::fabs(first - second) <= equal_intervals * first;
}

}  // namespace

double volume_by_end_areas(std::span<const SectionArea> sections, ZeroEnds zero_ends) {
    if (!usable(sections)) return NAN;
    double volume = 0;
    for (std::size_t i = 1; i < sections.size(); ++i)
        volume += between(sections[i - 1], sections[i], zero_ends);
    return volume;
}

PrismoidVolume volume_by_prismoids(std::span<const SectionArea> sections) {
    if (!usable(sections)) return {NAN, NAN};
    PrismoidVolume found;
    std::size_t i = 0;
    while (i + 1 < sections.size()) {
        const SectionArea& a = sections[i];
        if (i + 2 < sections.size() && halves(sections.subspan(i, 3))) {
            const SectionArea& b = sections[i + 2];
            found.volume += (b.ch - a.ch) * (a.area + 4 * sections[i + 1].area + b.area) / 6;
            i += 2;
        } else {
            found.volume += between(a, sections[i + 1], ZeroEnds::Wedges);
            found.by_end_areas += sections[i + 1].ch - a.ch;
            ++i;
        }
    }
    return found;
}

double level_section_correction(double length, double side, double height_1, double height_2) {
    return length * side * (height_1 - height_2) * (height_1 - height_2) / 6;
}

}  // namespace fallwright
