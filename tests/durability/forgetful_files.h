// ForgetfulFiles: one folder on a disk that forgets whatever it may.
//
// What programs see (the cache) and what is on the disk are kept apart. Only sync and sync_folder bring the
// disk up to date for certain; at any other time, and at a power cut, what reaches it is drawn:
//   bytes    each sector written since the last sync reaches the disk or not, in any order; sectors that do
//            not read as NULs, or as what stood there before. A sector is whole and harms no neighbour.
//   size     any of the sizes the file had since the last sync, in their order.
//   names    created, renamed and removed names reach the disk as a beginning of what was done or (by the
//            seed) as any part of it. A rename is one step.
//   sync     a failed one leaves a drawn part on the disk and calls the rest clean: it still reads back, a
//            second sync answers 0, and a power cut loses it. So Linux does (fsync(2), NOTES).
// Calls fail at random when faults are on: full disk, short write, EIO with a part written, no lock, no
// rights. After stop_at(n) the n-th call is the last of the running program: Stopped is thrown before it, in
// the middle of it or after it. Then come power_cut(), or killed() where only the program is gone and the
// cache is not.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "durability/draw.h"
#include "store/file.h"

namespace fallwright::durability {

using store::Call;

struct Stopped {};

class ForgetfulFiles : public store::Files {
  public:
    explicit ForgetfulFiles(std::uint64_t seed);

    // Every one_in-th call fails on average; 0: none.
    void set_faults(std::uint64_t one_in) { fault_one_in_ = one_in; }
    // Bytes all files together may have.
    void set_capacity(std::size_t bytes) { capacity_ = bytes; }
    // The n-th call from now is the last; 0: none is.
    void stop_at(std::uint64_t n) {
        calls_left_ = n;
        stop_due_ = false;
    }
    // Called before each call: another program's turn.
    void set_between(std::function<void()> turn) { between_ = std::move(turn); }

    void power_cut();
    void killed();

    bool exists(const std::string& path) const { return names_.count(path) != 0; }
    bool locked(const std::string& path) const;
    // What reads back now; "" where there is no such file.
    std::string bytes(const std::string& path) const;
    // What an editor does that knows no locks: a new file with durable bytes, renamed over the old; the names
    // become durable at once or whenever it happens.
    void save_by_rename(const std::string& path, const std::string& bytes, bool durable_name);

    Call<int> open(const std::string& path, store::Opening how) override;
    void close(int handle) override;
    int lock(int handle, store::Lock kind, std::chrono::milliseconds patience) override;
    Call<store::Status> status(int handle) override;
    Call<store::Status> status(const std::string& path) override;
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

    // The path a handle was opened by, for tests that break one call.
    std::string path_of(int handle) const { return open_.at(handle).path; }

  private:
    using Number = std::uint64_t;
    using Names = std::map<std::string, Number>;

    struct Node {
        std::string cache;
        std::string disk;
        std::set<std::size_t> dirty;  // sectors the disk does not have for certain
        std::vector<std::size_t>
            sizes;  // since the last sync, oldest first; the disk has one of them or `disk`'s
        std::uint32_t mode = 0644;
        int holder = -1;
    };
    struct Open {
        Number node;
        std::size_t offset;
        std::string path;
    };
    // `to` empty: removed. `from` empty: created.
    struct Naming {
        std::string from, to;
        Number node;
    };
    enum class Moment : std::uint8_t { None, Before, During, After };

    // Counts the call and gives others their turn; says when in this call the program stops.
    Moment begin();
    void end(Moment moment);
    bool fault();
    int error(std::initializer_list<int> choices);

    Node& node(int handle) { return nodes_.at(open_.at(handle).node); }
    std::size_t used() const;
    void put(Node& node, std::string_view bytes);
    void resize(Node& node, std::size_t size);
    void to_disk(Node& node, std::size_t sector);
    // Some of what is due reaches the disk, as drawn.
    void some_to_disk(Node& node);
    void all_to_disk(Node& node);
    static void apply(Names& names, const Naming& naming);
    void name(Naming naming);
    void all_names_to_disk();

    Draw draw_;
    std::size_t sector_;
    bool names_in_order_;
    std::uint64_t fault_one_in_ = 0;
    std::size_t capacity_ = SIZE_MAX;
    std::uint64_t calls_left_ = 0;
    bool stop_due_ = false;
    bool stopped_ = false;
    bool others_turn_ = false;
    std::function<void()> between_;
    std::map<Number, Node> nodes_;
    Number next_node_ = 1;
    std::map<int, Open> open_;
    int next_handle_ = 3;
    Names names_;
    Names disk_names_;
    std::vector<Naming> due_;
};

}  // namespace fallwright::durability
