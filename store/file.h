// Files: the system calls a book is kept with, as an interface.
//
// A book must survive a power cut, a killed program and a full disk. What survives is decided by the order of
// a few system calls and by what is done when one of them fails, so exactly these calls stand here:
// posix_files() makes them, and tests/durability/ has a forgetful disk that loses or tears all that was not
// made durable.
//
// Every call answers once, with 0 or the errno of POSIX.1-2017; nothing is retried inside but a call that was
// interrupted before it did anything (EINTR), and never a sync. No call throws. Paths are as the user typed
// them.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace fallwright::store {

// A value, or the errno that says why there is none.
template <class T>
struct Call {
    T value{};
    int error = 0;

    bool ok() const { return error == 0; }
};

// What the file system says about a file. Two statuses with equal device and number are one file, whatever
// name each was reached by, as long as one of them is held open.
struct Status {
    std::uint64_t device = 0;
    std::uint64_t number = 0;
    std::uint64_t size = 0;
    std::uint32_t mode = 0;
    bool regular = false;
    bool folder = false;

    bool same_file(const Status& other) const { return device == other.device && number == other.number; }
};

enum class Opening : std::uint8_t {
    Read,    // read from the start
    Append,  // read from the start, write at the end
    Create,  // as Append, but the file must not be there yet (EEXIST)
};

enum class Lock : std::uint8_t { Shared, Exclusive };

class Files {
  public:
    Files() = default;
    Files(const Files&) = delete;
    Files& operator=(const Files&) = delete;
    virtual ~Files() = default;

    // A handle, to be given back by close(), which also ends the lock.
    virtual Call<int> open(const std::string& path, Opening how) = 0;
    virtual void close(int handle) = 0;

    // Locks the open file against every other handle, of this process too. EWOULDBLOCK after `patience`.
    virtual int lock(int handle, Lock kind, std::chrono::milliseconds patience) = 0;

    virtual Call<Status> status(int handle) = 0;
    // The file now at that path, symbolic links followed.
    virtual Call<Status> status(const std::string& path) = 0;

    // Reads on from where the last read ended; 0 at the end of the file.
    virtual Call<std::size_t> read(int handle, char* into, std::size_t count) = 0;
    // One write at the end of the file. May write less than all without an error.
    virtual Call<std::size_t> write(int handle, std::string_view bytes) = 0;
    virtual int truncate(int handle, std::uint64_t size) = 0;
    virtual int set_mode(int handle, std::uint32_t mode) = 0;

    // Returns when bytes and size of the file are on the disk. After an error what was written since the last
    // success may be lost although it still reads back, and a second call may answer 0: never call it again
    // to turn a failure into a success.
    virtual int sync(int handle) = 0;
    // The same for the names in a folder. 0 also where the file system does not offer it (EINVAL, ENOTSUP).
    virtual int sync_folder(const std::string& folder) = 0;

    // In one step: who opens `to` finds the old file or the new one.
    virtual int rename(const std::string& from, const std::string& to) = 0;
    virtual int remove(const std::string& path) = 0;

    // The path with symbolic links in its last part followed, also to a file that is not there yet: the file
    // whose folder has to be made durable, and the name a rename may replace.
    virtual Call<std::string> target(const std::string& path) = 0;
    // The type number of the file system that holds the path (statfs f_type); 0 where there is none.
    virtual Call<std::uint64_t> file_system(const std::string& path) = 0;
};

// The system's own files. The first call makes the process ignore SIGXFSZ, so that a file over the size limit
// is an error (EFBIG) that can be reported and not the end of the program.
Files& posix_files();

// The folder a path stands in: "." for a bare name.
std::string folder_of(const std::string& path);

// Closes at the end of the scope.
class Handle {
  public:
    Handle(Files& files, int number) : files_(&files), number_(number) {}
    Handle(Handle&& other) noexcept : files_(other.files_), number_(other.number_) { other.number_ = -1; }
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    Handle& operator=(Handle&&) = delete;
    ~Handle() {
        if (number_ >= 0) files_->close(number_);
    }

    int number() const { return number_; }

  private:
    Files* files_;
    int number_;
};

}  // namespace fallwright::store
