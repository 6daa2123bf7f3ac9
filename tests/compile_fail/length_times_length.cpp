// A length times a length is an area, not a length.
#include "quantity/gradient.h"

using fallwright::Gradient;
using fallwright::Length;

[[maybe_unused]] constexpr auto checked =
#ifdef FALLWRIGHT_GOOD
    Gradient::percent(1) * Length::metres(2);
#else
    Length::metres(1) * Length::metres(2);
#endif
