#include "base/decimal.h"

#include <cassert>

namespace fallwright {

// 128 bits: ticks times a count of set-ups or a distance in ticks may pass 64.
__extension__ using Wide = __int128;

Decimal Decimal::share(std::int64_t numerator, std::int64_t denominator) const {
    assert(denominator > 0);
    const Wide product = static_cast<Wide>(ticks_) * numerator;
    const Wide half = denominator / 2;
    const Wide rounded = product >= 0 ? (product + half) / denominator : -((-product + half) / denominator);
    return Decimal::ticks(static_cast<std::int64_t>(rounded));
}

}  // namespace fallwright
