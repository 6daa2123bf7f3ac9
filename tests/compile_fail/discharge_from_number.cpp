// A number is no discharge until its unit is said: 2.5 may mean litres or cubic metres.
#include "quantity/discharge.h"

using fallwright::Discharge;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr Discharge checked = Discharge::litres(2.5);
#else
[[maybe_unused]] constexpr Discharge checked = 2.5;
#endif
