// patches: the parts of a measured surface that are to be cut and those to be filled, as areas. Inside record
// only.
//
// Over each triangle, or what an outline leaves of one, the height over what the surface is held against is a
// plane (ground/prisms.h): it is parted along the straight line where that is 0, and parts that lie side by
// side are joined. Heights are those of the evaluation: of a level or plane the core's own target_level(),
// against another surface the digs at the spots; triangles with a corner that has none are left out.
#pragma once

#include <vector>

#include "evaluation/evaluation.h"

namespace fallwright::record {

struct Patch {
    double size = 0;  // volume over one triangle or part of one
    ground::EastNorth middle;
};

struct PatchArea {
    std::vector<ground::EastNorth> outline;
    std::vector<std::vector<ground::EastNorth>> holes;
};

struct Patches {
    std::vector<PatchArea> areas;
    std::vector<Patch> places;  // for a word, the best first; a few
};

struct CutAndFill {
    Patches cut, fill;
    std::vector<std::array<ground::EastNorth, 2>> zero;  // where nothing is to be done, piece by piece
};

// east and north as in the book. Linear in the triangles but for the joining, n log n.
CutAndFill cut_and_fill(const Evaluation& evaluation, const ground::SurveyedSurface& surface,
                        const ground::SurfaceVolume& volume);

// Rings around counterclockwise polygons that lie side by side: edges run both ways are dropped, so that
// outer rings go counterclockwise and holes clockwise. Corners are one where they agree to a tenth of a
// millimetre.
std::vector<std::vector<ground::EastNorth>> joined(
    const std::vector<std::vector<ground::EastNorth>>& polygons);

}  // namespace fallwright::record
