// end_areas: volumes from areas of cross sections along a line, by the rules of the trade.
//
//   end areas    (A1 + A2) / 2 x L, section to section. Where the area is 0 at one end and not at the other
//                the body runs out to a point, and pyramids take A L / 3 there instead
//   prismoid     L / 6 x (A1 + 4 Am + A2): three sections with the middle one halfway. Exact where heights
//                and widths run straight between the ends. Of a row of sections each pair of equal intervals
//                is one prismoid; an interval left over (an odd number of them, or two that are not equal) is
//                taken by end areas, and how much of the length that is stands in the answer
//   correction   what end areas give too much against the prismoid for a level section whose height runs
//                straight from h1 to h2, sides 1 in s: L s (h1 - h2)^2 / 6
// Chainages rise, areas are 0 or more: else NaN. Fewer than two sections: 0. Any unit of length; the volume
// is in its cube. Cut and fill are two rows of areas, not one with signs.
//
// Sources: handbooks of the trade as quoted at TQ-03, TQ-04, TQ-06 and TQ-10 of the tests;
// docs/methods/volumes.md.
#pragma once

#include <cstdint>
#include <span>

namespace fallwright {

struct SectionArea {
    double ch = 0, area = 0;
};

enum class ZeroEnds : std::uint8_t { Pyramids, Wedges };  // wedges: end areas throughout

double volume_by_end_areas(std::span<const SectionArea> sections, ZeroEnds zero_ends);

struct PrismoidVolume {
    double volume = 0;
    double by_end_areas = 0;  // of the length: where no two equal intervals made a prismoid
};

PrismoidVolume volume_by_prismoids(std::span<const SectionArea> sections);

// side: horizontal per vertical of the side slopes.
double level_section_correction(double length, double side, double height_1, double height_2);

}  // namespace fallwright
