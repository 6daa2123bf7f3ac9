#include "effect/stretches.h"

namespace fallwright {

Stretches::Stretches(const Book& book) : book_(book), adjustments_(book.instruments.size()) {
    const ByName instruments(book.instruments);
    for (const Adjusted& adjusted : book.adjusted) {
        adjustments_[static_cast<std::size_t>(instruments(adjusted.instrument))].push_back(
            {book.entries[adjusted.entry].at, adjusted.entry});
    }
}

std::int32_t Stretches::of(std::size_t instrument, std::uint32_t entry) const {
    std::int32_t count = 0;
    const Instant at = book_.entries[entry].at;
    for (const Adjustment& adjustment : adjustments_[instrument]) {
        count += adjustment.at < at || (adjustment.at == at && adjustment.entry < entry) ? 1 : 0;
    }
    return count;
}

}  // namespace fallwright
