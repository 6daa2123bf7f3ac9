// times: instants as people read them. Inside record only.
#pragma once

#include <string>

#include "book/time.h"

namespace fallwright::record {

// "2026-05-04 08:30 UTC" of an RFC 3339 time in UTC; any other text as it is.
inline std::string time_words(const std::string& rfc3339) {
    constexpr std::size_t day = 10, minute = 16;
    if (rfc3339.size() <= minute || rfc3339[day] != 'T' || rfc3339.back() != 'Z') return rfc3339;
    return rfc3339.substr(0, day) + " " + rfc3339.substr(day + 1, minute - day - 1) + " UTC";
}
// "" where there is none.
inline std::string time_words(Instant at) {
    return time_words(format_time(at));
}
// "2026-05-04".
inline std::string day_of(Instant at) {
    constexpr std::size_t day = 10;
    return format_time(at).substr(0, day);
}

}  // namespace fallwright::record
