// HeldFile: a file open for appending, locked against every other writer, and known to be the one at its
// path.
//
// Between opening a file and getting its lock another program may have put a new file in its place or taken
// it away; what would then be written to the old one would be lost. So after locking the file at the path is
// compared with the one locked (device and number, not the name), and if they differ all begins again.
// Whoever holds the lock of the file at the path may write to it, replace it or remove it; nobody else.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include "base/result.h"
#include "store/file.h"

namespace fallwright::store {

// A writer holds the lock for a few milliseconds. After this time something is stuck, and a person should
// know.
constexpr std::chrono::milliseconds writer_patience{30000};

enum class IfAbsent : std::uint8_t { Create, Refuse };

struct HeldFile {
    Handle handle;
    std::string path;  // with links followed: the name a rename may replace
    Status status;
    bool created;  // by this call, and nobody has filled it since
};

// Errors (BadFile): cannot be opened, is a folder or no regular file, cannot be locked in writer_patience, is
// replaced by others again and again. `named` is the path as the user typed it and as findings name it.
Result<HeldFile> hold(Files& files, const std::string& named, IfAbsent if_absent);

// All bytes from the start of the file just opened to its end; 0 or the errno is in `error`.
Call<std::string> read_to_end(Files& files, const Handle& handle);

}  // namespace fallwright::store
