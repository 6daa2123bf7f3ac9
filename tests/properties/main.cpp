// Runs the properties. The seed is written here unless RC_PARAMS gives another, so that two runs try the same
// books.
#include <gtest/gtest.h>

#include <cstdlib>

int main(int count, char** arguments) {
    constexpr int keep_what_is_there = 0;
    setenv("RC_PARAMS", "seed=20260504 max_success=200", keep_what_is_there);
    testing::InitGoogleTest(&count, arguments);
    return RUN_ALL_TESTS();
}
