// What was answered survives: random power cuts, kills and faults on the forgetful disk (forgetful_files.h,
// site.h), and the proof that this would find the mistakes it is there for: the same run over system calls of
// which one is broken in the way a wrong implementation would break it must end in a complaint.
//
// Source of what a disk may do: fsync(2), write(2), rename(2) of Linux and POSIX.1-2017; that a failed fsync
// leaves pages clean: fsync(2), NOTES.
#include <gtest/gtest.h>

#include <cerrno>
#include <memory>
#include <string>

#include "durability/forgetful_files.h"
#include "durability/site.h"

namespace fallwright::durability {
namespace {

constexpr std::uint64_t first_seed = 20260504;
constexpr int ends_per_seed = 6;
constexpr std::uint64_t calls_per_life = 120;

struct Outcome {
    std::string complaint;
    std::size_t answered = 0;
    std::size_t torn = 0;
};

// One disk through several ends and a last orderly day.
template <class Disk>
Outcome run(std::uint64_t seed, std::uint64_t fault_one_in, bool others) {
    Disk disk(seed);
    Site site(disk, seed + 1);
    site.set_faults(fault_one_in);
    if (others) site.let_others_in();
    Outcome outcome;
    for (int end = 0; end < ends_per_seed && outcome.complaint.empty(); ++end) {
        site.live(calls_per_life);
        outcome.complaint = site.complaint();
        outcome.torn += site.torn();
    }
    if (outcome.complaint.empty()) {
        site.work(5);
        outcome.complaint = site.complaint();
    }
    outcome.answered = site.answered();
    return outcome;
}

struct Sum {
    std::size_t answered = 0;
    std::size_t torn = 0;
};

template <class Disk>
Sum expect_none_lost(int seeds, std::uint64_t fault_one_in, bool others) {
    Sum sum;
    for (int i = 0; i < seeds; ++i) {
        const Outcome outcome = run<Disk>(first_seed + i, fault_one_in, others);
        EXPECT_EQ(outcome.complaint, "") << "seed " << first_seed + i;
        sum.answered += outcome.answered;
        sum.torn += outcome.torn;
    }
    return sum;
}

// How many of `seeds` runs end in a complaint.
template <class Disk>
int complaints(int seeds, std::uint64_t fault_one_in, bool others) {
    int found = 0;
    for (int i = 0; i < seeds; ++i)
        found += run<Disk>(first_seed + i, fault_one_in, others).complaint.empty() ? 0 : 1;
    return found;
}

constexpr int draws_per_call = 25;
constexpr Start starts[] = {Start::NoFile,       Start::EmptyFile, Start::WholeLines,
                            Start::NoBreakAtEnd, Start::TornEnd,   Start::PartLeftBehind};

// Every call of `program` is once the last, `draws_per_call` disks each; then an add must work again.
template <class Disk>
int complaints_at_every_call(Program program, Start start, std::uint64_t& points) {
    int found = 0;
    bool stopped = true;
    for (std::uint64_t call = 1; stopped; ++call) {
        stopped = false;
        for (std::uint64_t i = 0; i < draws_per_call; ++i) {
            Disk disk(first_seed + i);
            Site site(disk, first_seed + i + 1);
            site.start(start);
            stopped = site.stop(program, call) || stopped;
            ++points;
            std::string complaint = site.complaint();
            const std::size_t before = site.answered();
            site.stop(Program::Add, 0);
            if (complaint.empty()) complaint = site.complaint();
            found += complaint.empty() && site.answered() > before ? 0 : 1;
        }
    }
    return found;
}

TEST(CrashPoints, EveryCallOfEveryProgramMayBeTheLastAndTheNextAddWorks) {
    std::uint64_t points = 0;
    for (const Program program :
         {Program::Add, Program::AddSeveral, Program::Import, Program::Rewrite, Program::Create}) {
        for (const Start start : starts) {
            EXPECT_EQ(complaints_at_every_call<ForgetfulFiles>(program, start, points), 0)
                << "program " << static_cast<int>(program) << ", start " << static_cast<int>(start);
        }
    }
    EXPECT_GT(points, 4000U);
}

TEST(CrashPoints, NothingAnsweredIsLostByPowerCutsAndKills) {
    const Sum sum = expect_none_lost<ForgetfulFiles>(500, 0, false);
    EXPECT_GT(sum.answered, 5000U);
    EXPECT_GT(sum.torn, 150U) << "the disk tore too little to prove anything";
}

TEST(CrashPoints, NothingAnsweredIsLostWithOtherProgramsBetweenAnyTwoCalls) {
    const Sum sum = expect_none_lost<ForgetfulFiles>(400, 0, true);
    EXPECT_GT(sum.answered, 5000U);
    EXPECT_GT(sum.torn, 100U);
}

TEST(CrashPoints, NothingAnsweredIsLostOnADiskThatFailsNowAndThen) {
    const Sum sum = expect_none_lost<ForgetfulFiles>(400, 25, false);
    EXPECT_GT(sum.answered, 1500U);
}

TEST(CrashPoints, NothingAnsweredIsLostWithFaultsAndOtherPrograms) {
    const Sum sum = expect_none_lost<ForgetfulFiles>(250, 25, true);
    EXPECT_GT(sum.answered, 1500U);
}

TEST(CrashPoints, AFullDiskKeepsTheBookAndTakesLinesAgainWhenThereIsRoom) {
    for (std::uint64_t seed = first_seed; seed < first_seed + 200; ++seed) {
        ForgetfulFiles disk(seed);
        Site site(disk, seed + 1);
        disk.set_capacity(30000);
        site.work(60);
        ASSERT_EQ(site.complaint(), "") << "seed " << seed;
        const std::size_t before = site.answered();
        disk.set_capacity(SIZE_MAX);
        site.work(20);
        ASSERT_EQ(site.complaint(), "") << "seed " << seed;
        ASSERT_GT(site.answered(), before);
        ASSERT_EQ(site.torn(), 0U) << "an append that does not fit is cut back whole";
    }
}

// --- the run finds what it is there for

struct NeverSynced : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int sync(int) override { return 0; }
};

struct SyncAskedAgain : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int sync(int handle) override {
        return ForgetfulFiles::sync(handle) == 0 ? 0 : ForgetfulFiles::sync(handle);
    }
};

struct FolderNeverSynced : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int sync_folder(const std::string&) override { return 0; }
};

struct PartNotSynced : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int sync(int handle) override {
        return path_of(handle) == std::string(site_book) + ".part" ? 0 : ForgetfulFiles::sync(handle);
    }
};

// The line break that the line above lacks goes in one write with the line.
struct BreakInTheSameWrite : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    Call<std::size_t> write(int handle, std::string_view bytes) override {
        if (bytes == "\n") {
            kept_back = true;
            return {1, 0};
        }
        if (!kept_back) return ForgetfulFiles::write(handle, bytes);
        kept_back = false;
        Call<std::size_t> written = ForgetfulFiles::write(handle, "\n" + std::string(bytes));
        if (written.value > 0) --written.value;
        return written;
    }
    bool kept_back = false;
};

struct NoBreakFirst : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    Call<std::size_t> write(int handle, std::string_view bytes) override {
        return bytes == "\n" ? Call<std::size_t>{1, 0} : ForgetfulFiles::write(handle, bytes);
    }
};

// Whatever is at the path is taken for the file that was opened.
struct IdentityNotChecked : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    Call<store::Status> status(int handle) override {
        last = ForgetfulFiles::status(handle).value;
        return {last, 0};
    }
    Call<store::Status> status(const std::string&) override { return {last, 0}; }
    store::Status last;
};

struct NoLocks : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int lock(int, store::Lock, std::chrono::milliseconds) override { return 0; }
};

struct NotCutBack : ForgetfulFiles {
    using ForgetfulFiles::ForgetfulFiles;
    int truncate(int, std::uint64_t) override { return 0; }
};

TEST(CrashPointsFind, AnAppendThatIsNeverSynced) {
    EXPECT_GT(complaints<NeverSynced>(100, 0, false), 50);
}

TEST(CrashPointsFind, AFailedSyncAskedAgainForSuccess) {
    EXPECT_GT(complaints<SyncAskedAgain>(400, 8, false), 10);
}

TEST(CrashPointsFind, AFolderThatIsNeverSynced) {
    EXPECT_GT(complaints<FolderNeverSynced>(100, 0, false), 50);
}

TEST(CrashPointsFind, ARenameBeforeTheNewFileIsDurable) {
    EXPECT_GT(complaints<PartNotSynced>(100, 0, false), 10);
}

TEST(CrashPointsFind, ALineBreakTornTogetherWithTheLine) {
    std::uint64_t points = 0;
    EXPECT_GT(complaints_at_every_call<BreakInTheSameWrite>(Program::AddSeveral, Start::NoBreakAtEnd, points),
              3);
}

TEST(CrashPointsFind, ALineWrittenBehindATornTail) {
    EXPECT_GT(complaints<NoBreakFirst>(100, 0, false), 50);
}

TEST(CrashPointsFind, AFileReplacedBetweenOpenAndLock) {
    EXPECT_GT(complaints<IdentityNotChecked>(100, 0, true), 50);
}

TEST(CrashPointsFind, AddersWithoutALock) {
    EXPECT_GT(complaints<NoLocks>(100, 0, true), 50);
}

TEST(CrashPointsFind, AFullDiskWithoutCuttingBack) {
    NotCutBack disk(first_seed);
    Site site(disk, first_seed + 1);
    disk.set_capacity(30000);
    site.work(60);
    EXPECT_EQ(site.complaint(), "");
    EXPECT_GT(site.torn(), 0U);
}

}  // namespace
}  // namespace fallwright::durability
