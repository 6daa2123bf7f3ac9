// line_entry: entries that say what is wanted rather than what was read: lines, tolerances, surfaces, tables.
//
// Lengths are metres, gradients ratios, as in entry.h; chainages and offsets (right positive) metres along
// and across the line. What is not given is absent.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "book/entry.h"
#include "preset/flatness.h"

namespace fallwright {

// What a line serves; decides how its heights count from the profile.
enum class LineUse : std::uint8_t { Drain, Road, Kerb, Slab, Other };
// Which way water runs along it; Default: as the profile's ends fall.
enum class Flow : std::uint8_t { Default, With, Against };

// A point of a line's profile: its level, or the gradient from the point before, or `by` under the level
// found at a point. curve: length of the vertical curve there, 0: a corner.
struct ProfilePoint {
    double ch = 0;           // chainage
    Maybe level, gradient;   // one of level, gradient, under; gradient: from the point before
    NameId under = no_name;  // a point's name
    double by = 0;           // metres under it
    double curve = 0;        // length of the parabola there, 0: none
};

// Rise per length outwards on each side of the line, at a chainage.
struct CrossfallAt {
    double ch = 0;
    double left = 0, right = 0;  // ratios
};

// Across the line, by chainage as given: straight from one to the next, beyond the first and the last as
// there. A crossfall that holds all along is a single one.
struct Crossfall {
    std::vector<CrossfallAt> along;

    bool given() const { return !along.empty(); }
};

// A stretch of pipes of one kind, by chainage. collar: its rise above the barrel.
struct Pipe {
    double from = 0, to = 0;  // chainages
    Maybe bore, wall, bedding, roughness, collar;
};

// Invert levels where pipes come in and go out (out defaults to in), the cover's level, and the size along
// the line.
struct Chamber {
    NameId name = no_name;
    double ch = 0;
    Maybe in, out, cover, size;
};

// The downstream end is fixed by another line there: by its invert, or by its soffit less the own bore.
struct Join {
    NameId line = no_name;
    double ch = 0;
    bool by_soffit = false;
};

// A layer of a road, from finished downward; `what` names its top.
struct Layer {
    NameId what = no_name;
    double thickness = 0;
};

// Height of a surface above the profile.
struct WhatHeight {
    NameId what = no_name;
    double height = 0;
};

// A line of work: where it runs (plan, chainage `start` at its first point), what is wanted on it, how it is
// built. A line without a plan has a frame of its own. The profile of a drain is its invert.
struct LineEntry {
    std::uint32_t entry = 0;
    NameId name = no_name;
    LineUse use = LineUse::Other;
    double start = 0;                         // chainage of the plan's first point
    std::vector<std::array<double, 2>> plan;  // e, n
    std::vector<ProfilePoint> profile;        // as given, in its order
    Flow flow = Flow::Default;
    Crossfall crossfall;
    std::array<Maybe, 2> edges;  // offsets of the edges, left and right
    std::vector<Pipe> pipes;
    std::vector<Chamber> chambers;
    std::vector<Join> joins;
    std::vector<double> outlets;  // chainages where water leaves the line
    std::vector<Layer> layers;
    std::vector<WhatHeight> whats;
};

// How often a surface may be off by `size` under a straightedge, in each `length` along it.
struct IrregularityLimit {
    double size = 0, length = 0;
    double most = 0;
};

// How even a surface must be. An empty one asks for nothing.
struct EvennessLimits {
    Maybe gap, over;                 // under a straightedge of length over
    preset::FlatnessCriterion gaps;  // by the distance of its high spots; none where its count is 0
    std::vector<IrregularityLimit> irregularities;
};

// How far a surface of a line may lie below (negative) and above its design, how it may fall the way water
// runs, and how even it must be. What the entry itself leaves open is taken from its presets, the first that
// says it; what is taken from one that is from memory gives a hint and no verdict.
struct Tolerance {
    std::uint32_t entry = 0;
    NameId line = no_name, what = no_name;
    Maybe below, above, fall_min, fall_max;
    EvennessLimits even;
    NameId source = no_name;
    std::vector<NameId> presets;  // as written

    // Presets in use, by name, with their source.
    struct Used {
        std::string_view name;
        const preset::Source* source;
    };
    std::vector<Used> used;
    // Which limits rest on memory alone.
    struct FromMemory {
        bool levels = false, falls = false, gap = false, gaps = false, irregularities = false;
    } from_memory;
};

// What a measured surface is held against: a level, a plane through a level at a place, or another surface.
// by: so much under it.
struct SurfaceTarget {
    NameId name = no_name;     // as people call it; none: what it is
    NameId surface = no_name;  // one of surface, level
    Maybe level;
    bool sloped = false;  // a plane: level is at this place, main rises along the bearing, cross to its right
    std::array<Maybe, 2> at;  // e, n; absent: where the point `place` is
    NameId place = no_name;
    double main = 0, cross = 0, bearing = 0;
    double by = 0;
};

// What happens to water at the edge of a measured surface: it runs off, or a kerb holds it.
enum class SurfaceEdge : std::uint8_t { Open, Kerbed };

// A measured surface: named points, or all points of one `what`.
struct SurfaceEntry {
    std::uint32_t entry = 0;
    NameId name = no_name, what = no_name;
    std::vector<NameId> points;  // one of points, what
    std::vector<std::vector<NameId>> breaklines;
    std::vector<std::array<double, 2>> inside;  // boundary, e, n
    std::vector<SurfaceTarget> to;              // what volumes are worked out to
    double strip = 0;                           // taken off all over before anything is dug or filled
    double bulking = 0, shrinkage = 0;          // loose / bank - 1; 1 - compacted / bank
    std::array<Maybe, 2> grid;                  // spacing along the bearing and across: cells, no triangles
    Maybe bearing;                              // of the grid and of the plane's two figures
    NameId towards = no_name;
    SurfaceEdge edge = SurfaceEdge::Open;
    std::vector<NameId> outlets;   // points where water leaves
    std::vector<NameId> flatness;  // presets
    Maybe contours;                // difference of level between two of them
};

// A table to keep ready in the result.
struct Want {
    std::uint32_t entry = 0;
    NameId line = no_name, surface = no_name, setup = no_name;
    Maybe every;  // metres between rows
    std::vector<NameId> whats;
};

// From here on readings of that surface in the stretch (inclusive; absent ends: the whole line) are of a new
// one.
struct Relaid {
    std::uint32_t entry = 0;
    NameId line = no_name, what = no_name, why = no_name;
    Maybe from, to;  // chainages
};

}  // namespace fallwright
