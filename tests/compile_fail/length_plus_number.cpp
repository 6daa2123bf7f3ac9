// A bare number has no unit: metres and feet must not meet by accident.
#include "quantity/gradient.h"

using fallwright::Gradient;
using fallwright::Length;

[[maybe_unused]] constexpr auto checked =
#ifdef FALLWRIGHT_GOOD
    Length::metres(1) + Length::feet(2);
#else
    Length::metres(1) + 2.0;
#endif
