// reassign: what the readings say if one of them belongs to another point, or to another set-up.
//
// The reading is taken out, and put back where it would belong. With t and V of its row, R its redundancy
// against V, g = a' C a_i and G = a' C a of the new row a (C: covariance of the unknowns), t' its misfit by
// the solution as it is:
//   misfit without the reading     e = t' + g t / (V R)
//   its variance                   s^2 = V' + G + g^2 / (V R)
//   ln odds = ln N(e; s^2) - ln N(t / R; V / R)
// A point that only this reading tells (R = 0) says nothing against the booked name but that such a level is
// one among many: its density is that of a level known to a metre. Common practice, no source.
#pragma once

#include "suspect/causes.h"
#include "suspect/odds.h"

namespace fallwright {

// cause: wrong-point or wrong-setup. size: of a free slip of that reading, NaN where nothing else tells. ln
// odds 0 where nothing can be said: places unknown on a slope, levels undetermined.
// enough: ln odds below which the cause does not matter; there G is the sum of the unknowns' own variances,
// so that no solve is spent on what nobody will see.
FoundSize odds_reassigned(const Evidence& evidence, const Causes& causes, const Cause& cause, double enough);

}  // namespace fallwright
