// A length is no gradient: it needs a length to rise over.
#include "quantity/gradient.h"

using fallwright::Gradient;
using fallwright::Length;

#ifdef FALLWRIGHT_GOOD
[[maybe_unused]] constexpr Gradient checked = Gradient::of(Length::metres(0.5), Length::metres(40));
#else
[[maybe_unused]] constexpr Gradient checked = Length::metres(0.5);
#endif
