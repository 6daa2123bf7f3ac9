#include <gtest/gtest.h>

#include "book/time.h"

namespace fallwright {
namespace {

TEST(FormatTime, WritesWhatItReads) {
    for (const char* text : {"1970-01-01T00:00:00Z", "2026-05-04T08:30:00Z", "2024-02-29T23:59:59.25Z",
                             "1969-12-31T23:59:59.999999Z", "2000-03-01T00:00:00Z", "1900-02-28T12:00:00Z",
                             "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z"})
        EXPECT_EQ(format_time(*parse_time(text)), text);
}

TEST(FormatTime, OffsetsGoToUniversalTime) {
    EXPECT_EQ(format_time(*parse_time("2026-04-17T00:15:00+01:00")), "2026-04-16T23:15:00Z");
}

TEST(FormatTime, BeforeAllHasNone) {
    EXPECT_EQ(format_time(before_all), "");
}

}  // namespace
}  // namespace fallwright
