#include "store/posix_files.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/statfs.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdio>
#include <thread>

namespace fallwright::store {

namespace {

using std::chrono::milliseconds;

// Linux writes at most this many bytes in one call (write(2)).
constexpr std::size_t longest_write = 0x7ffff000;
constexpr milliseconds shortest_pause{1};
constexpr milliseconds longest_pause{16};
// As many links as Linux itself follows in one path (path_resolution(7)).
constexpr int most_links = 40;

template <class Operation>
auto uninterrupted(Operation operation) {
    auto answer = operation();
    while (answer == -1 && errno == EINTR) answer = operation();
    return answer;
}

int error_of(int answer) {
    return answer == -1 ? errno : 0;
}

template <class Value, class Answer>
Call<Value> call_of(Answer answer) {
    if (answer == -1) return {Value{}, errno};
    return {static_cast<Value>(answer), 0};
}

int flags_of(Opening how) {
    switch (how) {
        case Opening::Read:
            return O_RDONLY;
        case Opening::Append:
            return O_RDWR | O_APPEND;
        case Opening::Create:
            return O_RDWR | O_APPEND | O_CREAT | O_EXCL;
    }
    return O_RDONLY;
}

Call<Status> status_of(int answer, const struct stat& seen) {
    if (answer == -1) return {Status{}, errno};
    Status status;
    status.device = seen.st_dev;
    status.number = seen.st_ino;
    status.size = static_cast<std::uint64_t>(seen.st_size);
    status.mode = seen.st_mode & 07777;
    status.regular = S_ISREG(seen.st_mode);
    status.folder = S_ISDIR(seen.st_mode);
    return {status, 0};
}

}  // namespace

Call<int> PosixFiles::open(const std::string& path, Opening how) {
    return call_of<int>(
        uninterrupted([&] { return ::open(path.c_str(), flags_of(how) | O_CLOEXEC | O_NOCTTY, 0666); }));
}

void PosixFiles::close(int handle) {
    ::close(handle);
}

// flock, not fcntl: the lock belongs to the open file, so a second handle in this process excludes the first,
// closing some other handle of the same file does not drop it, and a killed program's lock is gone with it.
// Asked for again and again because a waiting flock knows no time limit and signals belong to the program.
int PosixFiles::lock(int handle, Lock kind, milliseconds patience) {
    const int operation = (kind == Lock::Exclusive ? LOCK_EX : LOCK_SH) | LOCK_NB;
    const auto limit = std::chrono::steady_clock::now() + patience;
    milliseconds pause = shortest_pause;
    for (;;) {
        const int error = error_of(uninterrupted([&] { return ::flock(handle, operation); }));
        if (error != EWOULDBLOCK || std::chrono::steady_clock::now() >= limit) return error;
        std::this_thread::sleep_for(pause);
        pause = std::min(2 * pause, longest_pause);
    }
}

Call<Status> PosixFiles::status(int handle) {
    struct stat seen {};
    return status_of(::fstat(handle, &seen), seen);
}

Call<Status> PosixFiles::status(const std::string& path) {
    struct stat seen {};
    return status_of(::stat(path.c_str(), &seen), seen);
}

Call<std::size_t> PosixFiles::read(int handle, char* into, std::size_t count) {
    return call_of<std::size_t>(uninterrupted([&] { return ::read(handle, into, count); }));
}

Call<std::size_t> PosixFiles::write(int handle, std::string_view bytes) {
    const std::size_t count = std::min(bytes.size(), longest_write);
    return call_of<std::size_t>(uninterrupted([&] { return ::write(handle, bytes.data(), count); }));
}

int PosixFiles::truncate(int handle, std::uint64_t size) {
    return error_of(uninterrupted([&] { return ::ftruncate(handle, static_cast<off_t>(size)); }));
}

int PosixFiles::set_mode(int handle, std::uint32_t mode) {
    return error_of(::fchmod(handle, mode));
}

// Not even an interrupted fsync is asked again: its answer would no longer speak for what was written.
int PosixFiles::sync(int handle) {
    return error_of(::fsync(handle));
}

int PosixFiles::sync_folder(const std::string& folder) {
    const int handle =
        uninterrupted([&] { return ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); });
    if (handle == -1) return errno;
    const int error = error_of(::fsync(handle));
    ::close(handle);
    return error == EINVAL || error == ENOTSUP ? 0 : error;
}

int PosixFiles::rename(const std::string& from, const std::string& to) {
    return error_of(::rename(from.c_str(), to.c_str()));
}

int PosixFiles::remove(const std::string& path) {
    return error_of(::unlink(path.c_str()));
}

Call<std::string> PosixFiles::target(const std::string& path) {
    std::string here = path;
    for (int links = 0; links <= most_links; ++links) {
        char next[PATH_MAX];
        const ssize_t length = ::readlink(here.c_str(), next, sizeof next);
        if (length == -1 && (errno == EINVAL || errno == ENOENT)) return {here, 0};
        if (length == -1) return {std::string(), errno};
        const std::string_view link(next, static_cast<std::size_t>(length));
        here = link.front() == '/' ? std::string(link) : folder_of(here) + '/' + std::string(link);
    }
    return {std::string(), ELOOP};
}

Call<std::uint64_t> PosixFiles::file_system(const std::string& path) {
    struct statfs seen {};
    const int error = error_of(uninterrupted([&] { return ::statfs(path.c_str(), &seen); }));
    // f_type is signed and the numbers of some systems have their top bit set.
    return {static_cast<std::uint32_t>(seen.f_type), error};
}

Files& posix_files() {
    static PosixFiles files;
    static const bool ignored = std::signal(SIGXFSZ, SIG_IGN) != SIG_ERR;
    static_cast<void>(ignored);
    return files;
}

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.find_last_of('/');
    if (slash == std::string::npos) return ".";
    return slash == 0 ? "/" : path.substr(0, slash);
}

}  // namespace fallwright::store
