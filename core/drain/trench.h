// trench: what is dug for a run of drains, what goes back in, and what is carted away.
//
// Along the line the trench has its bottom at formation, at every depth d the width w(d) that the rule asks
// for (preset/trench_width.h) or the job's own, and sides that lean out by `batter` (horizontal per
// vertical):
//   dug        w d + batter d^2
//   bedding    the same up to the thickness under the pipe
//   surround   from there to `surround` over the crown, less the pipe
//   pipe       pi / 4 (bore + 2 wall)^2
//   backfill   what is left
// none of them above the ground, and no trench narrower than its pipe. Between the places where ground or
// design bend, d runs straight; where the width steps the piece is parted, so prismoids (ground/end_areas.h)
// are exact: volumes of two parts add up to that of the whole, and deeper never is less. Along a vertical
// curve the depth is taken straight over sixteenths. By end areas: from station to station, as they are
// worked out by hand.
//
// sd of what is dug: ground and design by their joint covariance, first order, the width held. Chambers' own
// pits are not in it. One metre dug gives one metre of backfill once compacted: what is over is dug -
// backfill; loose it takes 1 + bulking of that.
//
// Depth never speaks of support: widths are for working beside the pipe. Metres, m2, m3.
#pragma once

#include <string>
#include <vector>

#include "drain/run.h"
#include "preset/trench_width.h"

namespace fallwright::drain {

struct TrenchRule {
    std::string name;  // of the preset; of the rule where the width is its own
    const preset::TrenchWidthPreset* preset = nullptr;  // nullptr: `width` holds
    double width = NAN;
    double batter = 0;
    double surround = 0.15;  // over the crown; usual, from memory
    double bulking = NAN;    // NaN: nobody said
    std::string material;    // of the bulking's preset, or of its rule
    double load = NAN;       // m3 loose in one lorry; NaN: nobody said

    double least_width(const Pipe& pipe, double depth) const;
};

// Rules `trench` and `spoil` of the book, of that line before those of all. Without one the width is by
// trench-en-1610-supported in metres (from memory) and trench-astm-d2321 in feet. Unknown presets are
// findings.
TrenchRule trench_rule(const Book& book, const LineEntry& line, Findings& findings);
// A note where the widths are from memory.
void say_from_memory(const TrenchRule& rule, Findings& findings);

struct Dug {
    double by_end_areas = 0, dug = 0, dug_sd = 0;
    double bedding = 0, surround = 0, pipe = 0, backfill = 0;
};

// Of pipes of one kind, from chamber to chamber.
struct TrenchStretch {
    double from = 0, to = 0;
    const Pipe* pipe = nullptr;
    double narrowest = NAN, widest = NAN;  // at the bottom
    double shallowest = NAN, deepest = NAN;
    double left_out = 0;  // length where no ground was read or no bottom is known
    Dug volumes;
};

struct Spoil {
    double loose = NAN, loads = NAN;  // of all that is dug
    double surplus = NAN;             // in place
    double surplus_loose = NAN, surplus_loads = NAN;
};

struct Trench {
    TrenchRule rule;
    std::vector<TrenchStretch> stretches;  // by chainage
    Dug total;
    Spoil spoil;
};

// What is left out, and why, is a finding, and so is a width from memory.
Trench trench_of(const SetoutBasis& basis, std::size_t line, const TrenchRule& rule, Findings& findings);

// loads: whole lorries.
Spoil spoil_of(const Dug& dug, const TrenchRule& rule);

}  // namespace fallwright::drain
