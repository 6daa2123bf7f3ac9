#include "store/whole_file.h"

#include <gtest/gtest.h>

#include <cerrno>
#include <filesystem>

#include "store/scratch_folder.h"
#include "store/watched_files.h"

namespace fallwright::store {

namespace {

std::size_t files_in(const ScratchFolder& folder) {
    const auto all = std::filesystem::directory_iterator(folder.path());
    return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

}  // namespace

TEST(WholeFile, WritesAndReplaces) {
    const ScratchFolder folder;
    const std::string path = folder / "report.pdf";
    EXPECT_FALSE(write_whole(posix_files(), path, "first, and longer"));
    EXPECT_FALSE(write_whole(posix_files(), path, "second"));
    EXPECT_EQ(bytes_of(path), "second");
    EXPECT_EQ(files_in(folder), 1U) << "no part is left";
}

TEST(WholeFile, KeepsTheRightsOfTheFileItReplacesAndFollowsALink) {
    const ScratchFolder folder;
    put_bytes(folder / "real.html", "old");
    std::filesystem::permissions(folder / "real.html",
                                 std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    std::filesystem::create_symlink("real.html", folder / "link.html");
    EXPECT_FALSE(write_whole(posix_files(), folder / "link.html", "new"));
    EXPECT_EQ(bytes_of(folder / "real.html"), "new");
    EXPECT_TRUE(std::filesystem::is_symlink(folder / "link.html"));
    EXPECT_EQ(posix_files().status(folder / "real.html").value.mode, 0600U);
}

TEST(WholeFile, AFailedWriteLeavesTheOldFileAndNoPart) {
    const ScratchFolder folder;
    const std::string path = folder / "report.pdf";
    put_bytes(path, "old");
    Watched files;
    files.write_error = ENOSPC;
    const std::optional<Finding> failed = write_whole(files, path, "new");
    ASSERT_TRUE(failed);
    EXPECT_NE(failed->message.find("No space left on device"), std::string::npos) << failed->message;
    EXPECT_EQ(failed->about, std::vector<std::string>{path});
    EXPECT_EQ(bytes_of(path), "old");
    EXPECT_EQ(files_in(folder), 1U);
}

TEST(WholeFile, SaysWhatIsWrongWithThePath) {
    const ScratchFolder folder;
    const auto message = [&](const std::string& path) {
        return write_whole(posix_files(), path, "x")->message;
    };
    EXPECT_NE(message(folder / "none/report.pdf").find("No such file"), std::string::npos);
    EXPECT_NE(message(folder.path()).find("directory"), std::string::npos);
    // Linux' device that is always full: it is written to as it is, never replaced.
    EXPECT_NE(message("/dev/full").find("No space left on device"), std::string::npos);
    EXPECT_FALSE(std::filesystem::is_regular_file("/dev/full"));
}

}  // namespace fallwright::store
