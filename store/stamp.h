// Stamps: who and when, as the shells write them into an entry's `by` and `at`.
//
// The core knows no clock and no user. These are the only two places where they come from.
#pragma once

#include <cstdint>
#include <string>

namespace fallwright::store {

// RFC 3339 in UTC to the second: 2026-05-04T08:30:00Z. `seconds`: since 1970-01-01T00:00:00Z without leap
// seconds (POSIX time); years 0000 to 9999, programmer error beyond.
std::string rfc3339(std::int64_t seconds);

// The same of the system's clock.
std::string now_rfc3339();

// FALLWRIGHT_BY if set and not empty, else the name of the user this program runs as, else "".
std::string user_name();

}  // namespace fallwright::store
