// A number is no length until its unit is said.
#include "quantity/length.h"

using fallwright::Length;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr Length checked = Length::metres(1.432);
#else
[[maybe_unused]] constexpr Length checked = 1.432;
#endif
