// A length is no velocity: it needs a time.
#include "quantity/discharge.h"
#include "quantity/length.h"

using fallwright::Length;
using fallwright::Velocity;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr Velocity checked = Velocity::metres(Length::metres(0.7).metres());
#else
[[maybe_unused]] constexpr Velocity checked = Length::metres(0.7);
#endif
