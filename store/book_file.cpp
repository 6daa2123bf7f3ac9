#include "store/book_file.h"

#include <array>
#include <cerrno>
#include <utility>

#include "store/trouble.h"

namespace fallwright::store {

namespace {

using std::chrono::milliseconds;
using Failure = std::optional<Finding>;

// A reader need not wait for a stuck writer: at worst it sees the beginning of a line and reports it torn.
constexpr milliseconds reader_patience{2000};

constexpr std::string_view nothing_added = "nothing has been added";
constexpr std::string_view nothing_changed = "nothing has been changed";
constexpr std::string_view maybe_torn =
    "and what was written could not be taken back: a torn line may stand at its end";
constexpr std::string_view maybe_old = "the new file stands, but a power cut may bring back the old one";

// Type numbers from statfs(2) and linux/magic.h. FUSE may be a local disk as well: what it keeps is up to a
// program we cannot know.
constexpr std::array<std::uint64_t, 12> network_file_systems = {
    0x6969,      // NFS
    0x517B,      // SMB
    0xFE534D42,  // SMB2
    0xFF534D42,  // CIFS
    0x65735546,  // FUSE
    0x01021997,  // 9P
    0x5346414F,  // AFS
    0x6B414653,  // AFS (kernel)
    0x00C36400,  // Ceph
    0x73757245,  // Coda
    0x564C,      // NCP
    0x786F4256,  // folder shared with a virtual machine
};

// A folder that may be searched but not listed (EACCES) cannot be asked: for a name given long ago that is no
// reason to refuse.
Failure settle_name(Files& files, const std::string& named, const std::string& path, bool new_name,
                    std::string_view stands) {
    const int error = files.sync_folder(folder_of(path));
    if (error == 0 || (error == EACCES && !new_name)) return std::nullopt;
    return trouble(named, Step::Settle, error, stands);
}

// A file this call created and did not fill is taken away again; who waits for its lock sees that. Not if
// another has been renamed over it meanwhile: that one may hold what others were answered.
void leave_nothing(Files& files, const HeldFile& held) {
    if (!held.created) return;
    const Call<Status> there = files.status(held.path);
    if (there.ok() && there.value.same_file(held.status)) files.remove(held.path);
}

// What stands after the file has been cut back to its old length. The sync is asked for so that a power cut
// does not bring the piece back; that the append failed is settled.
std::string_view cut_back(Files& files, const HeldFile& held, std::size_t old_size) {
    if (files.truncate(held.handle.number(), old_size) != 0) return maybe_torn;
    files.sync(held.handle.number());
    return nothing_added;
}

// One write and one sync of it. Why a write was short is not known: the rest is not tried only to be told.
Failure put(Files& files, const std::string& named, const HeldFile& held, std::size_t old_size,
            std::string_view bytes) {
    const Call<std::size_t> written = files.write(held.handle.number(), bytes);
    if (!written.ok()) return trouble(named, Step::Write, written.error, cut_back(files, held, old_size));
    if (written.value != bytes.size()) {
        return finding(
            Code::BadFile, {named},
            "the disk did not take the whole entry, " + std::string(cut_back(files, held, old_size)),
            "free some space on this disk, or raise the limit on the size of files, then do it again");
    }
    const int error = files.sync(held.handle.number());
    if (error != 0) return trouble(named, Step::Settle, error, cut_back(files, held, old_size));
    return std::nullopt;
}

bool lacks_break(std::string_view bytes) {
    return !bytes.empty() && bytes.back() != '\n';
}

Failure add_in_place(Files& files, const std::string& named, const HeldFile& held, std::string_view now,
                     const Lines& lines) {
    if (lacks_break(now)) {
        if (Failure failed = put(files, named, held, now.size(), "\n")) return failed;
    }
    return put(files, named, held, now.size(), with_breaks(lines));
}

// The mode comes first, so that nobody reads in the part what he may not read in the book.
Failure write_part(Files& files, const std::string& named, const HeldFile& part, std::uint32_t mode,
                   std::string_view bytes) {
    const int handle = part.handle.number();
    int error = files.set_mode(handle, mode);
    if (error == 0 && part.status.size != 0) error = files.truncate(handle, 0);
    if (error != 0) return trouble(named, Step::Replace, error, nothing_changed);
    while (!bytes.empty()) {
        const Call<std::size_t> written = files.write(handle, bytes);
        if (!written.ok()) return trouble(named, Step::Write, written.error, nothing_changed);
        if (written.value == 0) return trouble(named, Step::Write, ENOSPC, nothing_changed);
        bytes.remove_prefix(written.value);
    }
    const int unsettled = files.sync(handle);
    if (unsettled != 0) return trouble(named, Step::Settle, unsettled, nothing_changed);
    return std::nullopt;
}

// The part's lock is held until its name is durable: who opens the new file has to wait for that. A part left
// by a killed program is free to lock and is written over.
Failure replace(Files& files, const std::string& named, const HeldFile& held, std::string_view bytes) {
    const std::string part_path = held.path + ".part";
    const Result<HeldFile> part = hold(files, part_path, IfAbsent::Create);
    if (!part) return part.finding();
    // A link of that name was put there by somebody else and leads to a file that is not ours to write.
    if (part->path != part_path) return trouble(part_path, Step::Replace, ELOOP, nothing_changed);
    Failure failed = write_part(files, named, *part, held.status.mode, bytes);
    const int error = failed ? 0 : files.rename(part_path, held.path);
    if (error != 0) failed = trouble(named, Step::Replace, error, nothing_changed);
    if (failed) {
        files.remove(part_path);
        return failed;
    }
    return settle_name(files, named, held.path, true, maybe_old);
}

Failure add_by_replacing(Files& files, const std::string& named, const HeldFile& held, std::string_view now,
                         const Lines& lines) {
    std::string bytes(now);
    if (lacks_break(now)) bytes += '\n';
    return replace(files, named, held, bytes + with_breaks(lines));
}

using AddLines = Failure (*)(Files&, const std::string&, const HeldFile&, std::string_view, const Lines&);

// Everything but taking away a file created in vain.
Result<Added> add_to(Files& files, const std::string& named, const HeldFile& held, const Compose& compose,
                     AddLines add_lines) {
    if (Failure failed = settle_name(files, named, held.path, held.created, nothing_added)) return *failed;
    const Call<std::string> now = read_to_end(files, held.handle);
    if (!now.ok()) return trouble(named, Step::Read, now.error, nothing_added);
    Result<Lines> lines = compose(now.value);
    if (!lines) return lines.finding();
    if (lines->empty()) return Added{};
    if (Failure refused = refuse(named, *lines)) return *refused;
    if (Failure failed = add_lines(files, named, held, now.value, *lines)) return *failed;
    return Added{std::move(*lines), held.created};
}

Result<Added> add(Files& files, const std::string& named, IfAbsent if_absent, const Compose& compose,
                  AddLines add_lines) {
    Result<HeldFile> held = hold(files, named, if_absent);
    if (!held) return held.finding();
    Result<Added> added = add_to(files, named, *held, compose, add_lines);
    if (!added || added->lines.empty()) leave_nothing(files, *held);
    return added;
}

}  // namespace

Result<Added> append(Files& files, const std::string& path, IfAbsent if_absent, const Compose& compose) {
    return add(files, path, if_absent, compose, add_in_place);
}

Result<Added> append_together(Files& files, const std::string& path, IfAbsent if_absent,
                              const Compose& compose) {
    return add(files, path, if_absent, compose, add_by_replacing);
}

Result<Added> create_new(Files& files, const std::string& path, const Lines& lines) {
    return add(
        files, path, IfAbsent::Create,
        [&](std::string_view now) -> Result<Lines> {
            if (now.empty()) return lines;
            return finding(Code::BadFile, {path}, "is there already, nothing has been written",
                           "take another name, or remove it first");
        },
        add_by_replacing);
}

Result<std::string> rewrite(Files& files, const std::string& path, const Change& change) {
    const Result<HeldFile> held = hold(files, path, IfAbsent::Refuse);
    if (!held) return held.finding();
    const Call<std::string> now = read_to_end(files, held->handle);
    if (!now.ok()) return trouble(path, Step::Read, now.error, nothing_changed);
    Result<std::string> bytes = change(now.value);
    if (!bytes) return bytes;
    if (Failure failed = replace(files, path, *held, *bytes)) return *failed;
    return bytes;
}

Result<std::string> read_all(Files& files, const std::string& path) {
    const Call<int> opened = files.open(path, Opening::Read);
    if (!opened.ok()) return trouble(path, Step::Open, opened.error, "");
    const Handle handle(files, opened.value);
    const Call<Status> status = files.status(opened.value);
    if (status.ok() && status.value.regular) files.lock(opened.value, Lock::Shared, reader_patience);
    Call<std::string> bytes = read_to_end(files, handle);
    if (!bytes.ok()) return trouble(path, Step::Read, bytes.error, "");
    return std::move(bytes.value);
}

std::optional<Finding> network_note(Files& files, const std::string& path) {
    Call<std::uint64_t> type = files.file_system(path);
    if (type.error == ENOENT) type = files.file_system(folder_of(path));
    if (!type.ok()) return std::nullopt;
    for (const std::uint64_t network : network_file_systems) {
        if (network == type.value) {
            return finding(Code::NetworkFolder, {path},
                           "is in a network or user-space folder: no promise that what is added survives");
        }
    }
    return std::nullopt;
}

}  // namespace fallwright::store
