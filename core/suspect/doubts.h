// doubts: what is asked about as soon as it is entered.
//
//   near-names            two points whose names differ by a slip of the hand
//   no-neighbour          a reading on a line that its neighbours along the line do not support, where no
//                         design says what to expect
//   reading-sd-differs    repeats of an instrument scatter more or less than its reading_sd says (chi-square
//   of
//                         their differences, two-sided at 5 %, from five degrees of freedom on)
//
// Never an error: a ditch is a ditch. Common practice, no source, but for the chi-square test.
//
// Inside suspect only.
#pragma once

#include "suspect/causes.h"

namespace fallwright {

Findings doubts_of(const Causes& causes, const Evidence& evidence);

}  // namespace fallwright
