#include "store/held_file.h"

#include <algorithm>
#include <cerrno>
#include <optional>
#include <utility>

#include "store/trouble.h"

namespace fallwright::store {

namespace {

constexpr std::string_view nothing_written = "nothing has been written";
// A file that changes this often between open and lock is being fought over by something that keeps no locks.
constexpr int most_attempts = 100;
constexpr std::size_t read_block = std::size_t{1} << 12;

struct Opened {
    int handle = -1;
    bool created = false;
};

// Asks to create only where there is nothing, and to open only where there is something, so that it is known
// whether this call made the file. ENOENT or EEXIST can be the answer where another program comes in between.
Call<Opened> open_or_create(Files& files, const std::string& path, IfAbsent if_absent) {
    const Call<int> there = files.open(path, Opening::Append);
    if (there.error != ENOENT || if_absent == IfAbsent::Refuse) return {{there.value, false}, there.error};
    const Call<int> made = files.open(path, Opening::Create);
    return {{made.value, true}, made.error};
}

std::optional<Finding> unusable(Files& files, const std::string& named, int handle) {
    const Call<Status> status = files.status(handle);
    if (!status.ok()) return trouble(named, Step::Open, status.error, nothing_written);
    if (status.value.folder) return trouble(named, Step::Open, EISDIR, nothing_written);
    if (status.value.regular) return std::nullopt;
    return finding(Code::BadFile, {named}, "is no regular file, nothing has been written",
                   "name a file on a disk");
}

enum class Standing : std::uint8_t { Same, Other, Unknown };

// Whether the file held is the one at the path; its status is taken again, for others may have filled it
// before the lock was got.
Standing standing(Files& files, const std::string& path, int handle, Call<Status>& held) {
    held = files.status(handle);
    if (!held.ok()) return Standing::Unknown;
    const Call<Status> there = files.status(path);
    if (there.ok()) return there.value.same_file(held.value) ? Standing::Same : Standing::Other;
    held.error = there.error;
    return there.error == ENOENT ? Standing::Other : Standing::Unknown;
}

}  // namespace

Result<HeldFile> hold(Files& files, const std::string& named, IfAbsent if_absent) {
    for (int attempt = 0; attempt < most_attempts; ++attempt) {
        const Call<std::string> path = files.target(named);
        if (!path.ok()) return trouble(named, Step::Open, path.error, nothing_written);
        const Call<Opened> opened = open_or_create(files, path.value, if_absent);
        if (opened.error == EEXIST) continue;
        if (!opened.ok()) return trouble(named, Step::Open, opened.error, nothing_written);
        Handle handle(files, opened.value.handle);
        if (std::optional<Finding> useless = unusable(files, named, handle.number())) return *useless;
        const int locked = files.lock(handle.number(), Lock::Exclusive, writer_patience);
        if (locked != 0) return trouble(named, Step::Lock, locked, nothing_written);
        Call<Status> held;
        const Standing now = standing(files, path.value, handle.number(), held);
        if (now == Standing::Unknown) return trouble(named, Step::Open, held.error, nothing_written);
        if (now == Standing::Other) continue;
        const bool created = opened.value.created && held.value.size == 0;
        return HeldFile{std::move(handle), path.value, held.value, created};
    }
    return finding(Code::BadFile, {named},
                   "is replaced by another program again and again, nothing has been written",
                   "stop the program that replaces it, then do it again");
}

Call<std::string> read_to_end(Files& files, const Handle& handle) {
    Call<std::string> all;
    const Call<Status> status = files.status(handle.number());
    if (status.ok()) all.value.reserve(static_cast<std::size_t>(status.value.size) + read_block);
    for (;;) {
        const std::size_t before = all.value.size();
        const std::size_t room = std::max(all.value.capacity() - before, read_block);
        all.value.resize(before + room);
        const Call<std::size_t> got = files.read(handle.number(), all.value.data() + before, room);
        all.value.resize(before + got.value);
        all.error = got.error;
        if (!got.ok() || got.value == 0) return all;
    }
}

}  // namespace fallwright::store
