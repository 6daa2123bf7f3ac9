// surface_of_book: the spots of a surface entry: which points of the book it is made of, where they lie, how
// high. Inside ground only.
//
// With `points` the ones named, in that order; with `what` all points read as such, in order of first
// appearance (planned readings and surfaces relaid since are none). Breaklines and outlets add the points
// they name. A point without a level or a place, or on another grid than the first one, is left out, and that
// is said once for all of them; a name that nothing in the book speaks of leaves out the whole entry, as
// everywhere.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ground/triangulation.h"
#include "model/model.h"

namespace fallwright::ground {

struct BookSpot {
    NameId name = no_name;
    std::int32_t point = -1;  // in Model::points
    double e = 0, n = 0, level = 0;
};

struct BookSurface {
    bool usable = false;  // three spots or more, and no trouble that leaves the entry out
    std::vector<BookSpot> spots;
    std::vector<std::vector<std::int32_t>> breaklines;  // chains of spots
    std::vector<std::int32_t> outlets;                  // spots
    std::int32_t frame = 0;                             // of all of them
    Heading heading;  // of the grid and of the plane's two figures: bearing, towards, else north
};

// Findings go to `findings`.
BookSurface surface_of_book(const Book& book, const Where& where, const Model& model,
                            const SurfaceEntry& entry, Findings& findings);

// Whether a place lies inside the outline or within a millimetre of it; without an outline everything does.
bool inside_outline(const SurfaceEntry& entry, const EastNorth& place);

// The spots that lie there: the plane that fits, high and low,
// flatness and what is to be dug are told of them. Without an outline all.
std::vector<BookSpot> spots_inside(const std::vector<BookSpot>& spots, const SurfaceEntry& entry);

// Whether two sides of an outline cross, or touch elsewhere than where one follows the other. Fewer than
// three corners, or two corners in one place, count as crossed. For outlines as people type them: time grows
// with the square of the corners.
bool outline_crosses(const std::vector<EastNorth>& outline);

}  // namespace fallwright::ground
