#include "store/whole_file.h"

#include <unistd.h>

#include <cerrno>

#include "store/trouble.h"

namespace fallwright::store {

namespace {

constexpr std::string_view nothing_written = "nothing has been written";

// 0, or the errno of the write that did not take all.
int put(Files& files, int handle, std::string_view bytes) {
    while (!bytes.empty()) {
        const Call<std::size_t> written = files.write(handle, bytes);
        if (!written.ok()) return written.error;
        if (written.value == 0) return ENOSPC;
        bytes.remove_prefix(written.value);
    }
    return 0;
}

std::optional<Finding> write_through(Files& files, const std::string& named, std::string_view bytes) {
    const Call<int> opened = files.open(named, Opening::Append);
    if (!opened.ok()) return trouble(named, Step::Open, opened.error, "");
    const Handle handle(files, opened.value);
    const int error = put(files, opened.value, bytes);
    if (error != 0) return trouble(named, Step::Write, error, "");
    return std::nullopt;
}

// A part of that name can only have been left by a killed process that had this one's number.
Call<int> open_part(Files& files, const std::string& part) {
    const Call<int> opened = files.open(part, Opening::Create);
    if (opened.error != EEXIST || files.remove(part) != 0) return opened;
    return files.open(part, Opening::Create);
}

std::optional<Finding> fill(Files& files, const std::string& named, const std::string& part,
                            const Call<Status>& old, std::string_view bytes) {
    const Call<int> opened = open_part(files, part);
    if (!opened.ok()) return trouble(named, Step::Write, opened.error, nothing_written);
    const Handle handle(files, opened.value);
    int error = old.ok() ? files.set_mode(opened.value, old.value.mode) : 0;
    if (error == 0) error = put(files, opened.value, bytes);
    if (error != 0) return trouble(named, Step::Write, error, nothing_written);
    error = files.sync(opened.value);
    if (error != 0) return trouble(named, Step::Settle, error, nothing_written);
    return std::nullopt;
}

}  // namespace

std::optional<Finding> write_whole(Files& files, const std::string& path, std::string_view bytes) {
    const Call<Status> old = files.status(path);
    if (old.ok() && old.value.folder) return trouble(path, Step::Write, EISDIR, nothing_written);
    if (old.ok() && !old.value.regular) return write_through(files, path, bytes);
    const Call<std::string> target = files.target(path);
    if (!target.ok()) return trouble(path, Step::Write, target.error, nothing_written);
    const std::string part = target.value + "." + std::to_string(::getpid()) + ".part";
    std::optional<Finding> failed = fill(files, path, part, old, bytes);
    if (!failed) {
        const int error = files.rename(part, target.value);
        if (error != 0) failed = trouble(path, Step::Replace, error, nothing_written);
    }
    if (failed) {
        files.remove(part);
    } else {
        files.sync_folder(folder_of(target.value));
    }
    return failed;
}

}  // namespace fallwright::store
