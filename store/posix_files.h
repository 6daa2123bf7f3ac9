// PosixFiles: the system calls themselves, on Linux. Tests derive from it to meddle between two calls.
#pragma once

#include "store/file.h"

namespace fallwright::store {

class PosixFiles : public Files {
  public:
    Call<int> open(const std::string& path, Opening how) override;
    void close(int handle) override;
    int lock(int handle, Lock kind, std::chrono::milliseconds patience) override;
    Call<Status> status(int handle) override;
    Call<Status> status(const std::string& path) override;
    Call<std::size_t> read(int handle, char* into, std::size_t count) override;
    Call<std::size_t> write(int handle, std::string_view bytes) override;
    int truncate(int handle, std::uint64_t size) override;
    int set_mode(int handle, std::uint32_t mode) override;
    int sync(int handle) override;
    int sync_folder(const std::string& folder) override;
    int rename(const std::string& from, const std::string& to) override;
    int remove(const std::string& path) override;
    Call<std::string> target(const std::string& path) override;
    Call<std::uint64_t> file_system(const std::string& path) override;
};

}  // namespace fallwright::store
