// drain: what a drain does with the water: hydraulics of a pipe, rules of self-cleansing, a run of pipes.
//
//   section.h     wet area, perimeter, hydraulic radius and width of a circular pipe at a depth
//   hydraulics.h  velocity and flow by Colebrook-White and Manning, full and part full, depths, falls
//
// Metres, seconds, ratios; falls are positive the way the water runs. Levels of water and pressure are not
// computed beyond steady, uniform flow: no backwater, no surge, no losses at bends and chambers. Pure.
#pragma once

#include "drain/hydraulics.h"  // IWYU pragma: export
#include "drain/section.h"     // IWYU pragma: export
