// A bare number has no unit: 0.5 may mean per cent or rise per length.
#include "quantity/gradient.h"

using fallwright::Gradient;
using fallwright::Length;

[[maybe_unused]] constexpr auto checked =
#ifdef FALLWRIGHT_GOOD
    Gradient::percent(1) + Gradient::percent(0.5);
#else
    Gradient::percent(1) + 0.5;
#endif
