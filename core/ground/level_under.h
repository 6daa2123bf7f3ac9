// level_under: the level of a surface at a place, and the spots it is made of. Inside ground only.
//
// A place on the side of two triangles belongs to the first of them; one that a part of a triangle lacks
// (parts end at the outline) is still on that triangle. Building sorts the triangles once.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ground/box_tree.h"
#include "ground/volumes.h"

namespace fallwright::ground {

class LevelUnder {
  public:
    // Outlives this.
    explicit LevelUnder(const ReadySurface& surface);

    struct Found {
        double level = 0;
        std::vector<PointTerm> terms;  // level is their sum; coefficients add up to 1
    };
    // Nothing beside the surface.
    std::optional<Found> at(const EastNorth& place) const;

  private:
    // A corner's level as a sum of spots.
    void add_corner(std::int32_t corner, double share, std::vector<PointTerm>& terms) const;

    const ReadySurface& surface_;
    BoxTree tree_;
};

}  // namespace fallwright::ground
