// volume_grid: spot levels on a regular grid, taken cell by cell. Inside ground only.
//
// A cell counts where all its four corners were read. Its middle has the mean of the four, and four triangles
// lie about it, so that its mean level is that of its corners: summed over the cells, corners count once,
// twice, three or four times (V = A / 4 x (S1 + 2 S2 + 3 S3 + 4 S4), the corner-weight rule), and what is dug
// and what is filled is told apart on the triangles. Areas are those of the cells as meant: spacing by
// spacing.
//
// The first spot is a corner; another one counts as the corner it lies within a tenth of the spacing of, the
// first one there stands. Source: the rule as quoted at TQ-08 and TQ-10 of the tests;
// docs/methods/volumes.md.
#pragma once

#include "ground/sheet.h"
#include "ground/surface_of_book.h"

namespace fallwright::ground {

struct GridSheet {
    Sheet sheet;
    std::vector<std::int32_t> off_grid;  // spots that are no corner
};

// along, across: spacings above 0, along the heading and to its right.
GridSheet grid_sheet(const std::vector<BookSpot>& spots, double along, double across, const Heading& heading);

}  // namespace fallwright::ground
