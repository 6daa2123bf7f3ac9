// gather: an evaluated book -> what can be handed over of it.
//
//   points     every point with a place on the grid or a level: benchmarks as held, levels found as measured
//   lines      plan, and the profile as it is wanted, corner by corner: gradients, chambers, joins and points
//              it hangs under are levels by then; pipes and chambers that count
//   surfaces   measured ones, with their triangles. Where an outline cuts triangles, those that it leaves
//   whole
//
// A point on a line without a plan has no place on the grid. What cannot be said is left out and noted by the
// format that cannot say it. Order: as in the book.
#pragma once

#include "evaluation/evaluation.h"
#include "exchange/handover/handover.h"

namespace fallwright::handover {

Handover gather(const Evaluation& evaluation);

}  // namespace fallwright::handover
