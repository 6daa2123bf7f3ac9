// A length is no number until its unit is said.
#include "quantity/length.h"

using fallwright::Length;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr double checked = Length::metres(1.432).feet();
#else
[[maybe_unused]] constexpr double checked = Length::metres(1.432);
#endif
