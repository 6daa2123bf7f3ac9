#include "page/share.h"

#include <cmath>
#include <limits>

namespace fallwright {

double RunWay::distance(std::uint32_t reading) const {
    const SightPlace& place = where_.readings[reading];
    return place.assumed_d ? std::numeric_limits<double>::quiet_NaN() : place.d;
}

void RunWay::enter(std::uint32_t back) {
    ++setups;
    sights.push_back({back, 1});
    length_ = left_at_.back() + distance(back);
    left_at_.push_back(length_);
}

void RunWay::leave(std::uint32_t fore) {
    sights.push_back({fore, -1});
    left_at_.back() = length_ + distance(fore);
}

Maybe RunWay::length_with(std::uint32_t reading) const {
    return {length_ + distance(reading)};
}

void RunWay::note(const Closure& closure) {
    // Back at its own start within the first set-up: there is no run to share along.
    if (closure.loop && setups == 1) return;
    if (!nodes_.empty() && nodes_.back().setup == setups) nodes_.pop_back();
    nodes_.push_back({setups, closure.misclosure});
}

void RunWay::share_out(bool by_distance, Page& page) const {
    if (nodes_.empty()) return;
    const auto position = [&](std::int32_t setup) {
        constexpr double millimetres = 1000;
        const double at = left_at_[static_cast<std::size_t>(setup)];
        return by_distance && !std::isnan(left_at_.back()) ? std::llround(at * millimetres)
                                                           : static_cast<std::int64_t>(setup);
    };
    std::size_t next = 0;
    Node before = {0, Decimal()};
    for (std::size_t i = 0; i < page.rows.size(); ++i) {
        const std::int32_t setup = setup_of_row_[i];
        while (next < nodes_.size() && setup > nodes_[next].setup) before = nodes_[next++];
        Decimal correction = -before.misclosure;
        if (next < nodes_.size()) {
            const std::int64_t span = position(nodes_[next].setup) - position(before.setup);
            const Decimal growth = nodes_[next].misclosure - before.misclosure;
            if (span > 0) correction -= growth.share(position(setup) - position(before.setup), span);
        }
        page.rows[i].adjusted = page.rows[i].level + correction;
    }
}

}  // namespace fallwright
