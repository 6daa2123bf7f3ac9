// Times of entries: RFC 3339, kept as microseconds since 1970-01-01T00:00:00Z.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

namespace fallwright {

// Enough for any year of four digits; leap seconds are not counted.
using Instant = std::int64_t;
// The time of entries that have none above them: before all.
constexpr Instant before_all = std::numeric_limits<Instant>::min();

// Nothing where the text is no RFC 3339 date and time (an offset is required; a leap second counts as the
// next second).
std::optional<Instant> parse_time(std::string_view text);

// "2026-05-04T08:30:00Z", with as many decimals of a second as it has; "" for before_all.
std::string format_time(Instant at);

}  // namespace fallwright
