#include "exchange/handover/plain_number.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

namespace fallwright::handover {
namespace {

// Against the C library's reader.
TEST(PlainNumber, AsTheCLibraryReadsIt) {
    for (const char* text : {"0", "-0.5", "+7", "651409.903", "313177.2704", "1e3", "-1.25E-2", ".5", "5.",
                             "0.00001", "123456789012345", "1.2345678901234"}) {
        const std::optional<double> read = plain_number(text);
        ASSERT_TRUE(read) << text;
        EXPECT_EQ(*read, std::strtod(text, nullptr)) << text;
    }
    const char* many = "651409.90312345678901234567890";
    EXPECT_NEAR(*plain_number(many), std::strtod(many, nullptr), 1e-9);
    EXPECT_NEAR(*plain_number("12345678901234567890"), 12345678901234567890.0, 1e4);
}

TEST(PlainNumber, NothingElse) {
    for (const char* text : {"", "-", ".", "1,5", "1 2", "0x10", "inf", "nan", "1e", "1e+", "1e99999",
                             "1e400", "--1", "1.2.3", "1m", " 1"})
        EXPECT_FALSE(plain_number(text)) << text;
}

TEST(PlainNumbers, PartedByWhiteSpace) {
    const auto three = plain_numbers(" 1\t2.5\n-3 ", 3);
    ASSERT_TRUE(three);
    EXPECT_EQ(*three, (std::vector<double>{1, 2.5, -3}));
    EXPECT_FALSE(plain_numbers("1 2 3", 2));
    EXPECT_FALSE(plain_numbers("1 x", 2));
    EXPECT_TRUE(plain_numbers("", 2)->empty());
}

}  // namespace
}  // namespace fallwright::handover
