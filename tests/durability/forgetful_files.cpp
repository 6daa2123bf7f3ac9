#include "durability/forgetful_files.h"

#include <algorithm>
#include <cerrno>

namespace fallwright::durability {

using store::Lock;
using store::Opening;
using store::Status;

ForgetfulFiles::ForgetfulFiles(std::uint64_t seed)
    : draw_(seed), sector_(draw_.one_in(4) ? 4096 : 512), names_in_order_(draw_.one_in(2)) {}

// --- stopping, failing

ForgetfulFiles::Moment ForgetfulFiles::begin() {
    if (stop_due_) end(Moment::Before);
    if (between_ && !others_turn_) {
        others_turn_ = true;
        between_();
        others_turn_ = false;
    }
    for (auto& [number, each] : nodes_) {
        if (draw_.one_in(16)) some_to_disk(each);
    }
    if (calls_left_ == 0 || --calls_left_ > 0) return Moment::None;
    // A call that answers an error before it comes to its end stops the program at its next call.
    stop_due_ = true;
    const auto moment = static_cast<Moment>(draw_.between(1, 3));
    if (moment == Moment::Before) end(moment);
    return moment;
}

void ForgetfulFiles::end(Moment moment) {
    if (moment == Moment::None) return;
    stopped_ = true;
    throw Stopped{};
}

bool ForgetfulFiles::fault() {
    return fault_one_in_ != 0 && draw_.one_in(fault_one_in_);
}

int ForgetfulFiles::error(std::initializer_list<int> choices) {
    return *(choices.begin() + draw_.below(choices.size()));
}

void ForgetfulFiles::killed() {
    open_.clear();
    for (auto& [number, each] : nodes_) each.holder = -1;
    stopped_ = false;
    stop_due_ = false;
    others_turn_ = false;
    calls_left_ = 0;
}

void ForgetfulFiles::power_cut() {
    killed();
    for (auto& [number, each] : nodes_) {
        some_to_disk(each);
        each.cache = each.disk;
        each.dirty.clear();
        each.sizes.clear();
    }
    const std::size_t kept = draw_.below(due_.size() + 1);
    for (std::size_t i = 0; i < due_.size(); ++i) {
        if (names_in_order_ ? i < kept : draw_.one_in(2)) apply(disk_names_, due_[i]);
    }
    due_.clear();
    names_ = disk_names_;
}

// --- bytes

std::size_t ForgetfulFiles::used() const {
    std::set<Number> reached;
    for (const auto& [path, number] : names_) reached.insert(number);
    for (const auto& [handle, each] : open_) reached.insert(each.node);
    std::size_t sum = 0;
    for (const Number number : reached) sum += nodes_.at(number).cache.size();
    return sum;
}

void ForgetfulFiles::put(Node& node, std::string_view bytes) {
    const std::size_t first = node.cache.size();
    if (bytes.empty()) return;
    node.cache += bytes;
    for (std::size_t sector = first / sector_; sector <= (node.cache.size() - 1) / sector_; ++sector) {
        node.dirty.insert(sector);
    }
    node.sizes.push_back(node.cache.size());
}

void ForgetfulFiles::resize(Node& node, std::size_t size) {
    node.cache.resize(size);
    node.sizes.push_back(size);
}

void ForgetfulFiles::to_disk(Node& node, std::size_t sector) {
    const std::size_t first = sector * sector_;
    const std::size_t last = std::min({first + sector_, node.disk.size(), node.cache.size()});
    if (first < last) node.disk.replace(first, last - first, node.cache, first, last - first);
}

void ForgetfulFiles::some_to_disk(Node& node) {
    const std::size_t reached = draw_.below(node.sizes.size() + 1);
    if (reached > 0) node.disk.resize(node.sizes[reached - 1]);
    node.sizes.erase(node.sizes.begin(), node.sizes.begin() + static_cast<std::ptrdiff_t>(reached));
    for (const std::size_t sector : node.dirty) {
        if (draw_.one_in(2)) to_disk(node, sector);
    }
}

void ForgetfulFiles::all_to_disk(Node& node) {
    node.disk.resize(node.cache.size());
    for (const std::size_t sector : node.dirty) to_disk(node, sector);
    node.dirty.clear();
    node.sizes.clear();
}

// --- names

void ForgetfulFiles::apply(Names& names, const Naming& naming) {
    if (!naming.from.empty()) names.erase(naming.from);
    if (!naming.to.empty()) names[naming.to] = naming.node;
}

void ForgetfulFiles::name(Naming naming) {
    apply(names_, naming);
    due_.push_back(std::move(naming));
}

void ForgetfulFiles::all_names_to_disk() {
    disk_names_ = names_;
    due_.clear();
}

bool ForgetfulFiles::locked(const std::string& path) const {
    const auto found = names_.find(path);
    return found != names_.end() && nodes_.at(found->second).holder >= 0;
}

std::string ForgetfulFiles::bytes(const std::string& path) const {
    const auto found = names_.find(path);
    return found == names_.end() ? "" : nodes_.at(found->second).cache;
}

void ForgetfulFiles::save_by_rename(const std::string& path, const std::string& bytes, bool durable_name) {
    const Number number = next_node_++;
    put(nodes_[number], bytes);
    all_to_disk(nodes_[number]);
    name({"", path + "~", number});
    name({path + "~", path, number});
    if (durable_name) all_names_to_disk();
}

// --- the calls

Call<int> ForgetfulFiles::open(const std::string& path, Opening how) {
    const Moment moment = begin();
    if (fault()) return {0, error({EACCES, EMFILE, EIO})};
    if (how == Opening::Create && exists(path)) return {0, EEXIST};
    if (how != Opening::Create && !exists(path)) return {0, ENOENT};
    if (how == Opening::Create) {
        nodes_[next_node_] = Node{};
        name({"", path, next_node_++});
    }
    end(moment);
    open_[next_handle_] = {names_.at(path), 0, path};
    return {next_handle_++, 0};
}

void ForgetfulFiles::close(int handle) {
    if (stopped_ || open_.count(handle) == 0) return;
    if (node(handle).holder == handle) node(handle).holder = -1;
    open_.erase(handle);
}

int ForgetfulFiles::lock(int handle, Lock kind, std::chrono::milliseconds) {
    const Moment moment = begin();
    if (fault()) return ENOLCK;
    Node& held = node(handle);
    if (held.holder >= 0 && held.holder != handle) return EWOULDBLOCK;
    if (kind == Lock::Exclusive) held.holder = handle;
    end(moment);
    return 0;
}

Call<Status> ForgetfulFiles::status(int handle) {
    const Moment moment = begin();
    if (fault()) return {Status{}, EIO};
    end(moment);
    Status status;
    status.number = open_.at(handle).node;
    status.size = node(handle).cache.size();
    status.mode = node(handle).mode;
    status.regular = true;
    return {status, 0};
}

Call<Status> ForgetfulFiles::status(const std::string& path) {
    const Moment moment = begin();
    if (fault()) return {Status{}, EIO};
    end(moment);
    if (!exists(path)) return {Status{}, ENOENT};
    Status status;
    status.number = names_.at(path);
    status.size = nodes_.at(status.number).cache.size();
    status.regular = true;
    return {status, 0};
}

Call<std::size_t> ForgetfulFiles::read(int handle, char* into, std::size_t count) {
    const Moment moment = begin();
    if (fault()) return {0, EIO};
    end(moment);
    Open& open = open_.at(handle);
    const std::string& bytes = node(handle).cache;
    const std::size_t there = bytes.size() - std::min(bytes.size(), open.offset);
    std::size_t got = std::min(count, there);
    if (got > 1 && draw_.one_in(8)) got = draw_.between(1, got);
    bytes.copy(into, got, open.offset);
    open.offset += got;
    return {got, 0};
}

Call<std::size_t> ForgetfulFiles::write(int handle, std::string_view bytes) {
    const Moment moment = begin();
    const std::size_t room = capacity_ - std::min(capacity_, used());
    const bool cut = fault() || moment == Moment::During;
    const std::size_t taken = std::min(room, cut ? draw_.below(bytes.size() + 1) : bytes.size());
    put(node(handle), bytes.substr(0, taken));
    end(moment);
    if (taken == 0 && !bytes.empty()) return {0, ENOSPC};
    if (cut && draw_.one_in(2)) return {0, EIO};
    return {taken, 0};
}

int ForgetfulFiles::truncate(int handle, std::uint64_t size) {
    const Moment moment = begin();
    if (fault()) return EIO;
    resize(node(handle), size);
    end(moment);
    return 0;
}

int ForgetfulFiles::set_mode(int handle, std::uint32_t mode) {
    const Moment moment = begin();
    if (fault()) return EPERM;
    node(handle).mode = mode;
    end(moment);
    return 0;
}

int ForgetfulFiles::sync(int handle) {
    const Moment moment = begin();
    Node& synced = node(handle);
    const bool failed = fault();
    if (failed || moment == Moment::During) {
        some_to_disk(synced);
        if (failed) synced.dirty.clear();
        end(moment);
        return EIO;
    }
    all_to_disk(synced);
    end(moment);
    return 0;
}

int ForgetfulFiles::sync_folder(const std::string&) {
    const Moment moment = begin();
    if (moment == Moment::During) end(moment);
    if (fault()) return EIO;
    all_names_to_disk();
    end(moment);
    return 0;
}

int ForgetfulFiles::rename(const std::string& from, const std::string& to) {
    const Moment moment = begin();
    if (fault()) return error({EIO, ENOSPC});
    if (!exists(from)) return ENOENT;
    name({from, to, names_.at(from)});
    end(moment);
    return 0;
}

int ForgetfulFiles::remove(const std::string& path) {
    const Moment moment = begin();
    if (fault()) return EIO;
    if (!exists(path)) return ENOENT;
    name({path, "", names_.at(path)});
    end(moment);
    return 0;
}

Call<std::string> ForgetfulFiles::target(const std::string& path) {
    return {path, 0};
}

Call<std::uint64_t> ForgetfulFiles::file_system(const std::string&) {
    return {0, 0};
}

}  // namespace fallwright::durability
