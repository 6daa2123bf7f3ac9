// A gradient and a length have no sum.
#include "quantity/gradient.h"

using fallwright::Gradient;
using fallwright::Length;

[[maybe_unused]] constexpr auto checked =
#ifdef FALLWRIGHT_GOOD
    Gradient::percent(1) + Gradient::percent(2);
#else
    Gradient::percent(1) + Length::metres(2);
#endif
