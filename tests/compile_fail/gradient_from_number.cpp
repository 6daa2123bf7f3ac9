// A number is no gradient until its unit is said.
#include "quantity/gradient.h"

using fallwright::Gradient;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr Gradient checked = Gradient::ratio(0.0125);
#else
[[maybe_unused]] constexpr Gradient checked = 0.0125;
#endif
