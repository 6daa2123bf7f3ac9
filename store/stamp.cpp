#include "store/stamp.h"

#include <pwd.h>
#include <unistd.h>

#include <array>
#include <cassert>
#include <chrono>
#include <cstdio>
#include <cstdlib>

namespace fallwright::store {

std::string rfc3339(std::int64_t seconds) {
    using namespace std::chrono;
    const sys_seconds moment{std::chrono::seconds{seconds}};
    const sys_days day = floor<days>(moment);
    const year_month_day date{day};
    const hh_mm_ss time{moment - day};
    assert(date.year() >= year{0} && date.year() <= year{9999});
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02uT%02d:%02d:%02dZ", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                  static_cast<int>(time.hours().count()), static_cast<int>(time.minutes().count()),
                  static_cast<int>(time.seconds().count()));
    return text.data();
}

std::string now_rfc3339() {
    using namespace std::chrono;
    return rfc3339(duration_cast<seconds>(system_clock::now().time_since_epoch()).count());
}

std::string user_name() {
    const char* stated = std::getenv("FALLWRIGHT_BY");
    if (stated != nullptr && *stated != '\0') return stated;
    std::array<char, 4096> room{};
    passwd entry{};
    passwd* found = nullptr;
    if (getpwuid_r(geteuid(), &entry, room.data(), room.size(), &found) != 0 || found == nullptr) return "";
    return found->pw_name;
}

}  // namespace fallwright::store
