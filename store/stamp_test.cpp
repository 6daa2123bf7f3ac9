#include "store/stamp.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

namespace fallwright::store {
namespace {

// Values by GNU date: date -u -d @SECONDS +%FT%TZ.
TEST(Stamp, TimesAreWrittenAsRfc3339InUtc) {
    EXPECT_EQ(rfc3339(0), "1970-01-01T00:00:00Z");
    EXPECT_EQ(rfc3339(951782399), "2000-02-28T23:59:59Z");
    EXPECT_EQ(rfc3339(951782400), "2000-02-29T00:00:00Z");
    EXPECT_EQ(rfc3339(1777883400), "2026-05-04T08:30:00Z");
    EXPECT_EQ(rfc3339(4107542399), "2100-02-28T23:59:59Z");
    EXPECT_EQ(rfc3339(4107542400), "2100-03-01T00:00:00Z");
    EXPECT_EQ(rfc3339(-1), "1969-12-31T23:59:59Z");
}

TEST(Stamp, NowIsWrittenInTheSameForm) {
    std::string form = now_rfc3339();
    for (char& c : form) c = c >= '0' && c <= '9' ? '0' : c;
    EXPECT_EQ(form, "0000-00-00T00:00:00Z");
    EXPECT_GT(now_rfc3339(), "2025-01-01T00:00:00Z");
}

TEST(Stamp, TheStatedNameComesBeforeTheLogin) {
    ::setenv("FALLWRIGHT_BY", "Ida Moor", 1);
    EXPECT_EQ(user_name(), "Ida Moor");
    ::setenv("FALLWRIGHT_BY", "", 1);
    const std::string login = user_name();
    ::unsetenv("FALLWRIGHT_BY");
    EXPECT_EQ(user_name(), login);
    EXPECT_NE(login, "Ida Moor");
}

}  // namespace
}  // namespace fallwright::store
