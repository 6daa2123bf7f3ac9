// volumes: what is to be dug and filled from a measured surface to what it is held against.
//
//   cut, fill      apart, exact on the triangles (prisms.h); net is cut - fill. With `strip` so much is taken
//   off
//                  all over first: cut and fill count from the stripped ground, and strip is a volume of its
//                  own
//   +-             first order, from the joint covariance of the levels of every spot in it, the other
//   surface's
//                  included. The staff's foot stands in the levels already. Not in it: how the ground runs
//                  between the spots, which nobody read. Where the ground is within its own uncertainty of
//                  the other surface over much of the area, cut and fill alike come out a little small
//   loose          what is cut, once dug: cut x (1 + bulking)
//   surplus        what is cut less what the fill takes, in the bank: cut - fill / (1 - shrinkage). Negative:
//                  so much is to be brought
//   balance        how the other surface would have to lie so that nothing is left over (balance.h)
//   dig            spot by spot: level, less strip, less what it is held against; positive to dig. NaN where
//   the
//                  other surface does not reach
//
// Metres; m3 and m2. Sources: docs/methods/volumes.md.
#pragma once

#include <vector>

#include "ground/balance.h"
#include "ground/sheet.h"
#include "ground/surface_of_book.h"

namespace fallwright::ground {

struct SpotDig {
    double dig = 0, sd = 0;
};

struct SurfaceVolume {
    const SurfaceTarget* target = nullptr;
    double area = 0;  // over which it is worked out
    Earthwork work;
    double cut_sd = 0, fill_sd = 0, net_sd = 0;
    double strip = 0, loose = 0, surplus = 0, surplus_sd = 0;
    double raised = 0, raised_sd = 0;  // what balances: the target this much higher; NaN where nothing does
    Earthwork balanced;
    std::vector<SpotDig> digs;  // per spot inside the outline
};

// One surface, ready: its spots and the sheet made of them.
struct ReadySurface {
    const SurfaceEntry* entry = nullptr;
    BookSurface spots;
    std::vector<BookSpot> inner;  // spots inside the outline
    Sheet sheet;
};

// The level of a plane or level target at a place, its `by` taken off. at: where a sloped one has its level.
double target_level(const SurfaceTarget& target, const EastNorth& at, const EastNorth& place);

// To a level or a plane.
SurfaceVolume volume_to_plane(const ReadySurface& surface, const SurfaceTarget& target, const EastNorth& at,
                              const Model& model);
// To another surface, where both lie.
SurfaceVolume volume_between(const ReadySurface& surface, const SurfaceTarget& target,
                             const ReadySurface& other, const Model& model);

}  // namespace fallwright::ground
