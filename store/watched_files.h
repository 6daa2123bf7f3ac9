// The system's files, meddled with or watched between two calls. Tests only.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "store/book_file.h"
#include "store/posix_files.h"

namespace fallwright::store {

inline Compose these(Lines lines) {
    return [lines = std::move(lines)](std::string_view) { return lines; };
}

// Does something between the opening of a file and its lock, once.
struct Meddling : PosixFiles {
    int lock(int handle, Lock kind, std::chrono::milliseconds patience) override {
        if (before_lock) std::exchange(before_lock, nullptr)();
        return PosixFiles::lock(handle, kind, patience);
    }
    std::function<void()> before_lock;
};

// Writes down which call came when, and lets one kind of them fail.
struct Watched : PosixFiles {
    Call<int> open(const std::string& path, Opening how) override {
        if (how != Opening::Create || PosixFiles::status(path).ok()) return PosixFiles::open(path, how);
        seen.push_back("create");
        return PosixFiles::open(path, how);
    }
    int lock(int handle, Lock kind, std::chrono::milliseconds patience) override {
        seen.push_back("lock");
        return PosixFiles::lock(handle, kind, patience);
    }
    Call<std::size_t> write(int handle, std::string_view bytes) override {
        seen.push_back("write " + std::string(bytes.substr(0, 8)));
        if (write_error != 0) return {0, write_error};
        return PosixFiles::write(handle, short_write ? bytes.substr(0, bytes.size() / 2) : bytes);
    }
    int sync(int handle) override {
        seen.push_back("sync");
        const int error = PosixFiles::sync(handle);
        return sync_error != 0 ? sync_error : error;
    }
    int sync_folder(const std::string& folder) override {
        seen.push_back("sync folder");
        const int error = PosixFiles::sync_folder(folder);
        return folder_error != 0 ? folder_error : error;
    }
    int truncate(int handle, std::uint64_t size) override {
        seen.push_back("cut");
        return truncate_error != 0 ? truncate_error : PosixFiles::truncate(handle, size);
    }
    int rename(const std::string& from, const std::string& to) override {
        seen.push_back("rename");
        return PosixFiles::rename(from, to);
    }
    std::vector<std::string> seen;
    int write_error = 0, sync_error = 0, folder_error = 0, truncate_error = 0;
    bool short_write = false;
};

using Seen = std::vector<std::string>;

}  // namespace fallwright::store
