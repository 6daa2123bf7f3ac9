// A discharge is no velocity, though both are so much a second.
#include "quantity/discharge.h"

using fallwright::Discharge;
using fallwright::Velocity;

[[maybe_unused]] constexpr auto checked =
#ifdef FALLWRIGHT_GOOD
    Discharge::litres(1) < Discharge::litres(2);
#else
    Discharge::litres(1) < Velocity::metres(2);
#endif
