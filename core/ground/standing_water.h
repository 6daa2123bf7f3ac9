// standing_water: where water would stand on a measured surface.
//
// Water leaves over the edge of the surface, unless a kerb holds it there, and at outlets. Over any place it
// stands as high as the lowest way out lets it, the highest level on each way counted. On plane triangles
// that way leads along their sides from corner to corner, so levels of water, the sill each pond spills over
// and its low point are exact for the surface as it is. A triangle that the outline cuts leads water with all
// of itself; how much stands on it counts within the outline only.
//
//   depth        sill less low point, with its sd from the joint covariance of the two
//   probability  that the sill is truly the higher one: Phi(depth / sd). Hollows that are not there as
//                measured are not listed, though they may be there
//   area, volume of the water; the volume's sd first order, as in volumes.h
// Listed are ponds of least_pond or deeper, the deepest first, the deepest_listed of them. How the ground
// runs between the spots is not known: a hollow between them does not show.
//
// Metres. Source: docs/methods/standing-water.md.
#pragma once

#include <vector>

#include "ground/volumes.h"

namespace fallwright::ground {

constexpr double least_pond = 0.001;
constexpr std::size_t deepest_listed = 100;

// A corner of a sheet: a spot, or the middle of a cell.
struct WaterCorner {
    NameId name = no_name;  // none: a middle
    double e = 0, n = 0, level = 0;
};

struct SurfacePond {
    WaterCorner low, sill;
    double depth = 0, depth_sd = 0;
    double probability = 0;
    double area = 0, volume = 0, volume_sd = 0;
};

struct StandingWater {
    bool drains = true;  // false: kerbed all round and no outlet on it; no ponds are then told
    std::vector<SurfacePond> ponds;
    std::size_t more = 0;  // of least_pond or deeper, not listed
};

// Outlets that are no corner of the sheet drain nothing.
StandingWater standing_water(const ReadySurface& surface, const Model& model);

}  // namespace fallwright::ground
