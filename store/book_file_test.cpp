// The book file on the system's own disk. Power cuts, faults and full disks: tests/durability.
#include "store/book_file.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cerrno>
#include <filesystem>
#include <string>

#include "store/scratch_folder.h"
#include "store/watched_files.h"

namespace fallwright::store {
namespace {

TEST(BookFile, TheFirstLineCreatesTheFileAndMakesItsNameDurableFirst) {
    const ScratchFolder folder;
    Watched files;
    const auto added = append(files, folder / "a.book.jsonl", IfAbsent::Create, these({"{\"a\":1}"}));
    ASSERT_TRUE(added);
    EXPECT_TRUE(added->created);
    EXPECT_EQ(bytes_of(folder / "a.book.jsonl"), "{\"a\":1}\n");
    EXPECT_EQ(files.seen, (Seen{"create", "lock", "sync folder", "write {\"a\":1}\n", "sync"}));
}

TEST(BookFile, ALineIsOneWriteAndOneSync) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"}));
    ASSERT_TRUE(added);
    EXPECT_FALSE(added->created);
    EXPECT_EQ(added->lines, Lines{"{\"b\":2}"});
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n");
    EXPECT_EQ(files.seen, (Seen{"lock", "sync folder", "write {\"b\":2}\n", "sync"}));
}

TEST(BookFile, ALastLineWithoutBreakGetsItsBreakDurablyFirst) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}");
    Watched files;
    ASSERT_TRUE(append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"})));
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n");
    EXPECT_EQ(files.seen, (Seen{"lock", "sync folder", "write \n", "sync", "write {\"b\":2}\n", "sync"}));
}

TEST(BookFile, ATornEndOfNulsIsEndedAndKept) {
    const ScratchFolder folder;
    const std::string torn = "{}\n{\"k" + std::string(9, '\0');
    put_bytes(folder / "a", torn);
    ASSERT_TRUE(append(posix_files(), folder / "a", IfAbsent::Create, these({"{\"b\":2}"})));
    EXPECT_EQ(bytes_of(folder / "a"), torn + "\n{\"b\":2}\n");
}

TEST(BookFile, SeveralLinesGoInWithOneWrite) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    ASSERT_TRUE(append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}", "{\"c\":3}"})));
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n{\"c\":3}\n");
    EXPECT_EQ(files.seen, (Seen{"lock", "sync folder", "write {\"b\":2}\n", "sync"}));
}

TEST(BookFile, TheLinesAreComposedFromWhatTheFileHoldsUnderTheLock) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Meddling files;
    files.before_lock = [&] { append(posix_files(), folder / "a", IfAbsent::Create, these({"{\"b\":2}"})); };
    const auto compose = [](std::string_view now) -> Result<Lines> {
        return Lines{"{\"bytes\":" + std::to_string(now.size()) + "}"};
    };
    ASSERT_TRUE(append(files, folder / "a", IfAbsent::Create, compose));
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n{\"b\":2}\n{\"bytes\":11}\n");
}

TEST(BookFile, NoLinesOrARefusalWriteNothingAndLeaveNoFile) {
    const ScratchFolder folder;
    const auto none = append(posix_files(), folder / "a", IfAbsent::Create, these({}));
    ASSERT_TRUE(none);
    EXPECT_TRUE(none->lines.empty());
    const auto refusal = [](std::string_view) -> Result<Lines> {
        return finding(Code::NoValue, {}, "refused");
    };
    const auto refused = append(posix_files(), folder / "a", IfAbsent::Create, refusal);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.finding().code, Code::NoValue);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

// --- errors

TEST(BookFile, AShortWriteIsCutBackAndReported) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    files.short_write = true;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"}));
    ASSERT_FALSE(added);
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
    EXPECT_EQ(added.finding().message, "the disk did not take the whole entry, nothing has been added");
    EXPECT_EQ(files.seen, (Seen{"lock", "sync folder", "write {\"b\":2}\n", "cut", "sync"}));
}

TEST(BookFile, AFullDiskIsSaidInOneLine) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}");
    Watched files;
    files.write_error = ENOSPC;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"}));
    ASSERT_FALSE(added);
    EXPECT_EQ(bytes_of(folder / "a"), "{}");
    EXPECT_EQ(one_line(added.finding()),
              (folder / "a") +
                  ": cannot be written (No space left on device), nothing has been added; free some "
                  "space on this disk, then do it again");
}

TEST(BookFile, AFailedSyncIsNotAskedAgainForSuccess) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    files.sync_error = EIO;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"}));
    ASSERT_FALSE(added);
    EXPECT_EQ(added.finding().code, Code::BadFile);
    EXPECT_EQ(added.finding().message, "cannot be made durable (Input/output error), nothing has been added");
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
    EXPECT_EQ(files.seen, (Seen{"lock", "sync folder", "write {\"b\":2}\n", "sync", "cut", "sync"}));
}

TEST(BookFile, WhatCannotBeCutBackIsSaid) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    Watched files;
    files.short_write = true;
    files.truncate_error = EIO;
    const auto added = append(files, folder / "a", IfAbsent::Create, these({"{\"b\":2}"}));
    ASSERT_FALSE(added);
    EXPECT_NE(added.finding().message.find("could not be taken back"), std::string::npos);
}

TEST(BookFile, AFolderThatCannotBeMadeDurableTakesNoBook) {
    const ScratchFolder folder;
    Watched files;
    files.folder_error = EIO;
    EXPECT_FALSE(append(files, folder / "a", IfAbsent::Create, these({"{}"})));
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
    // A folder that may not be listed: a reason for a new name, not for a book that stands there.
    files.folder_error = EACCES;
    EXPECT_FALSE(append(files, folder / "a", IfAbsent::Create, these({"{}"})));
    put_bytes(folder / "b", "{}\n");
    EXPECT_TRUE(append(files, folder / "b", IfAbsent::Create, these({"{}"})));
}

TEST(BookFile, WhatIsNoFileIsRefused) {
    const ScratchFolder folder;
    const auto into_folder = append(posix_files(), folder.path(), IfAbsent::Create, these({"{}"}));
    ASSERT_FALSE(into_folder);
    EXPECT_EQ(into_folder.finding().cure, "name a file in that folder");
    const std::string pipe = folder / "pipe";
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    EXPECT_FALSE(append(posix_files(), pipe, IfAbsent::Create, these({"{}"})));
    const auto no_folder = append(posix_files(), folder / "none/a", IfAbsent::Create, these({"{}"}));
    ASSERT_FALSE(no_folder);
    EXPECT_EQ(no_folder.finding().cure, "check its name, and that its folder is there");
    const auto absent = append(posix_files(), folder / "a", IfAbsent::Refuse, these({"{}"}));
    ASSERT_FALSE(absent);
    EXPECT_EQ(absent.finding().code, Code::BadFile);
}

TEST(BookFile, ALineThatWouldDamageTheBookIsRefusedAndNoneOfItsFellowsIsWritten) {
    const ScratchFolder folder;
    put_bytes(folder / "a", "{}\n");
    const std::string longest(longest_line, 'x');
    for (const std::string& bad :
         {std::string("{\n}"), std::string("{\0}", 3), std::string("\xff"), std::string(), longest + "x"}) {
        const auto added = append(posix_files(), folder / "a", IfAbsent::Create, these({"{}", bad}));
        ASSERT_FALSE(added);
        EXPECT_EQ(added.finding().code, bad.size() > longest_line ? Code::LineTooLong : Code::BadRequest);
    }
    EXPECT_EQ(bytes_of(folder / "a"), "{}\n");
    EXPECT_TRUE(append(posix_files(), folder / "a", IfAbsent::Create, these({longest})));
}

// --- reading

TEST(BookFile, AllBytesAreReadWhateverTheirNumber) {
    const ScratchFolder folder;
    for (const std::size_t size : {0U, 1U, 4095U, 4096U, 4097U, 3000000U}) {
        const std::string bytes(size, 'x');
        put_bytes(folder / "a", bytes);
        const auto got = read_all(posix_files(), folder / "a");
        ASSERT_TRUE(got);
        EXPECT_EQ(*got, bytes);
    }
    EXPECT_FALSE(read_all(posix_files(), folder.path()));
    EXPECT_FALSE(read_all(posix_files(), folder / "none"));
}

TEST(BookFile, OnlyNetworkFoldersGetANote) {
    const ScratchFolder folder;
    EXPECT_FALSE(network_note(posix_files(), folder / "a"));
    struct Elsewhere : PosixFiles {
        Call<std::uint64_t> file_system(const std::string&) override { return {type, 0}; }
        std::uint64_t type = 0;
    } files;
    // statfs(2): NFS, SMB, SMB2, CIFS, FUSE; EXT4 and TMPFS.
    for (const std::uint64_t type : {0x6969U, 0x517bU, 0xfe534d42U, 0xff534d42U, 0x65735546U}) {
        files.type = type;
        ASSERT_TRUE(network_note(files, folder / "a"));
        EXPECT_EQ(network_note(files, folder / "a")->code, Code::NetworkFolder);
    }
    for (const std::uint64_t type : {0xef53U, 0x01021994U}) {
        files.type = type;
        EXPECT_FALSE(network_note(files, folder / "a"));
    }
}

}  // namespace
}  // namespace fallwright::store
