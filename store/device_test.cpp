#include "store/device.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <thread>
#include <vector>

#include "store/scratch_folder.h"

namespace fallwright::store {
namespace {

// Settings in a scratch folder, and none stated in the environment.
class Device : public ::testing::Test {
  protected:
    void SetUp() override {
        ::unsetenv("FALLWRIGHT_DEVICE");
        ::setenv("XDG_CONFIG_HOME", (folder / "settings").c_str(), 1);
    }
    void TearDown() override {
        ::unsetenv("FALLWRIGHT_DEVICE");
        ::unsetenv("XDG_CONFIG_HOME");
    }
    ScratchFolder folder;
};

TEST_F(Device, TheStatedNameIsTaken) {
    ::setenv("FALLWRIGHT_DEVICE", "site-2_b", 1);
    const auto name = device_name(posix_files());
    ASSERT_TRUE(name);
    EXPECT_EQ(*name, "site-2_b");
    EXPECT_FALSE(std::filesystem::exists(folder / "settings"));
}

TEST_F(Device, AStatedNameThatWouldNotGoIntoAnIdIsRefused) {
    for (const char* bad :
         {"#1", "two words", "a/b", "\xc3\xa4", "quote\"", "x23456789012345678901234567890123"}) {
        ::setenv("FALLWRIGHT_DEVICE", bad, 1);
        const auto name = device_name(posix_files());
        ASSERT_FALSE(name) << bad;
        EXPECT_EQ(name.finding().code, Code::BadRequest);
        EXPECT_EQ(name.finding().about, std::vector<std::string>{"FALLWRIGHT_DEVICE"});
    }
}

TEST_F(Device, ANameIsMadeOnceAndKept) {
    const auto first = device_name(posix_files());
    ASSERT_TRUE(first);
    EXPECT_EQ(first->size(), 6U);
    EXPECT_TRUE(std::all_of(first->begin(), first->end(), [](char c) { return c >= 'a' && c <= 'z'; }));
    EXPECT_EQ(bytes_of(folder / "settings/fallwright/device"), *first + "\n");
    EXPECT_EQ(*device_name(posix_files()), *first);
    std::filesystem::remove_all(folder / "settings");
    EXPECT_NE(*device_name(posix_files()), *first) << "26^6 names: equal once in 300 million runs";
}

TEST_F(Device, AFileLeftEmptyByACrashIsFilled) {
    std::filesystem::create_directories(folder / "settings/fallwright");
    put_bytes(folder / "settings/fallwright/device", "");
    const auto name = device_name(posix_files());
    ASSERT_TRUE(name);
    EXPECT_EQ(bytes_of(folder / "settings/fallwright/device"), *name + "\n");
}

TEST_F(Device, ProgramsThatComeAtOnceAgreeOnTheName) {
    std::vector<std::string> names(8);
    std::vector<std::thread> programs;
    programs.reserve(names.size());
    for (std::string& name : names) {
        programs.emplace_back([&name] {
            const auto got = device_name(posix_files());
            name = got ? *got : one_line(got.finding());
        });
    }
    for (std::thread& each : programs) each.join();
    EXPECT_EQ(names, std::vector<std::string>(8, *device_name(posix_files())));
}

TEST_F(Device, ASettingsFolderThatCannotBeMadeHasACure) {
    put_bytes(folder / "settings", "a file");
    const auto name = device_name(posix_files());
    ASSERT_FALSE(name);
    EXPECT_EQ(name.finding().code, Code::BadFile);
    EXPECT_EQ(name.finding().cure, "set FALLWRIGHT_DEVICE to a name for this device");
}

TEST(Ids, CountOnFromTheHighestTheBookMentions) {
    EXPECT_EQ(Ids("qkzmwd", "").next(), "qkzmwd-1");
    Ids ids("qkzmwd", R"({"id":"qkzmwd-9"}{"id": "qkzmwd-12"}{"of":"qkzmwd-3"}{"id":"other-40"})");
    EXPECT_EQ(ids.next(), "qkzmwd-13");
    EXPECT_EQ(ids.next(), "qkzmwd-14");
}

TEST(Ids, ANumberInATornLineIsNotGivenAgain) {
    EXPECT_EQ(Ids("qkzmwd", "{}\n{\"kind\":\"reading\",\"id\":\"qkzmwd-7").next(), "qkzmwd-8");
}

TEST(Ids, NamesThatBeginAlikeDoNotDisturb) {
    EXPECT_EQ(Ids("site", R"({"id":"site-b-7"}{"id":"xsite-9"}{"id":"site-x8"}{"id":"site"})").next(),
              "site-1");
    EXPECT_EQ(Ids("site-b", R"({"id":"site-b-7"})").next(), "site-b-8");
}

TEST(Ids, NumbersNoToolWroteAreNotCountedOnFrom) {
    EXPECT_EQ(Ids("qkzmwd", R"({"id":"qkzmwd-99999999999999999999"}{"id":"qkzmwd-2"})").next(), "qkzmwd-3");
    EXPECT_EQ(Ids("qkzmwd", R"({"id":"qkzmwd-007"})").next(), "qkzmwd-8");
}

}  // namespace
}  // namespace fallwright::store
