// The book file when others come in between, and when the whole of it is replaced.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cerrno>
#include <filesystem>
#include <string>

#include "store/book_file.h"
#include "store/scratch_folder.h"
#include "store/watched_files.h"

namespace fallwright::store {
namespace {

// --- others come in between

TEST(BookFileChange, AFileReplacedBetweenOpenAndLockIsOpenedAgain) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "old\n");
    put_bytes(folder / "new", "new\n");
    Meddling files;
    files.before_lock = [&] { std::filesystem::rename(folder / "new", folder / "a"); };
    ASSERT_TRUE(append(files, folder / "a", IfAbsent::Create, these({"{}"})));
    EXPECT_EQ(bytes_of(folder / "a"), "new\n{}\n");
}

TEST(BookFileChange, AFileRemovedBetweenOpenAndLockIsCreatedAgain) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "old\n");
    Meddling files;
    files.before_lock = [&] { std::filesystem::remove(folder / "a"); };
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{}"}));
    ASSERT_TRUE(added);
    EXPECT_TRUE(added->created);
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
}

TEST(BookFileChange, AFileFilledByAnotherAfterWeCreatedItIsNotTakenAway) {
    const ScratchFolder folder;
    Meddling files;
    files.before_lock = [&] { append(posix_files(), folder / "a", IfAbsent::Create, these({"{\"b\":2}"})); };
    EXPECT_FALSE(create_new(files, folder / "a", {"{}"}));
    EXPECT_EQ(bytes_of(folder / "a"), "{\"b\":2}\n");
}

TEST(BookFileChange, ABookHeldBySomebodyElseIsReportedAfterAWhile) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    const Call<int> other = posix_files().open(folder / "a", Opening::Append);
    ASSERT_EQ(posix_files().lock(other.value, Lock::Exclusive, std::chrono::milliseconds(0)), 0);
    struct Impatient : PosixFiles {
        int lock(int handle, Lock kind, std::chrono::milliseconds) override {
            return PosixFiles::lock(handle, kind, std::chrono::milliseconds(20));
        }
    } files;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{}"}));
    ASSERT_FALSE(added);
    EXPECT_EQ(added.finding().cure, "close the other program that holds it, then do it again");
    EXPECT_TRUE(read_all(files, folder / "a")) << "reading goes on without the lock";
    posix_files().close(other.value);
    EXPECT_TRUE(append(files, folder / "a", IfAbsent::Create, these({"{}"})));
}

TEST(BookFileChange, AFileFoughtOverIsGivenUp) {
    const ScratchFolder folder;
    struct Replacing : PosixFiles {
        Call<Status> status(const std::string& path) override {
            Call<Status> answer = PosixFiles::status(path);
            ++answer.value.number;
            return answer;
        }
    } files;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{}"}));
    ASSERT_FALSE(added);
    EXPECT_EQ(added.finding().cure, "stop the program that replaces it, then do it again");
}

// --- replacing the whole file

TEST(BookFileChange, ANewBookIsWrittenBesideAndRenamed) {
    const ScratchFolder folder;
    Watched files;
    ASSERT_TRUE(create_new(files, folder / "a", {"{}", "{\"b\":2}"}));
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n");
    EXPECT_EQ(files.seen, (Seen{"create", "lock", "sync folder", "create", "lock",
                                "write {}\n{\"b\":", "sync", "rename", "sync folder"}));
    const auto again = create_new(files, folder / "a", {"{}"});
    ASSERT_FALSE(again);
    EXPECT_EQ(again.finding().cure, "take another name, or remove it first");
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n");
}

TEST(BookFileChange, RewritingKeepsPermissionsAndLeavesNothingBeside) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n{}\n");
    put_bytes(folder / "a.part", "left by a killed program, longer than the book");
    ASSERT_EQ(::chmod((folder / "a").c_str(), 0640), 0);
    const auto change = [](std::string_view now) -> Result<std::string> {
        return std::string(now.substr(3));
    };
    const auto written = rewrite(posix_files(), folder / "a", change);
    ASSERT_TRUE(written);
    EXPECT_EQ(*written, "{}\n");
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
    EXPECT_EQ(posix_files().status(folder / "a").value.mode, 0640U);
    EXPECT_FALSE(std::filesystem::exists(folder / "a.part"));
    EXPECT_FALSE(rewrite(posix_files(), folder / "none", change));
}

TEST(BookFileChange, RewritingThatFailsLeavesTheBook) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    files.write_error = ENOSPC;
    const auto written = rewrite(files, folder / "a",
                                 [](std::string_view) -> Result<std::string> { return std::string("x\n"); });
    ASSERT_FALSE(written);
    EXPECT_EQ(written.finding().message,
              "cannot be written (No space left on device), nothing has been changed");
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
    EXPECT_FALSE(std::filesystem::exists(folder / "a.part"));
}

TEST(BookFileChange, ALinkIsFollowedAndStays) {
    const ScratchFolder folder;
    std::filesystem::create_directory(folder / "books");
    std::filesystem::create_symlink("books/a", folder / "link");
    ASSERT_TRUE(append(posix_files(), folder / "link", IfAbsent::Create, these({"{}"})));
    ASSERT_TRUE(append_together(posix_files(), folder / "link", IfAbsent::Create, these({"{}", "{}"})));
    EXPECT_TRUE(std::filesystem::is_symlink(folder / "link"));
    EXPECT_EQ(bytes_of(folder / "books/a"), "{}\n{}\n{}\n");
}

TEST(BookFileChange, ALinkInPlaceOfThePartIsNotWrittenThrough) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    put_bytes(folder / "other", "precious");
    std::filesystem::create_symlink("other", folder / "a.part");
    EXPECT_FALSE(append_together(posix_files(), folder / "a", IfAbsent::Create, these({"{}"})));
    EXPECT_EQ(bytes_of(folder / "other"), "precious");
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
}

TEST(BookFileChange, LinesThatGoInTogetherFollowALineWithoutBreak) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}");
    ASSERT_TRUE(append_together(posix_files(), folder / "a", IfAbsent::Refuse, these({"{\"b\":2}"})));
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n");
}

}  // namespace
}  // namespace fallwright::store
