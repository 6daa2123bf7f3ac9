#include "book/names.h"

#include <algorithm>
#include <cstring>
#include <functional>

namespace fallwright {

namespace {

constexpr std::size_t block_size = std::size_t{64} * 1024;
constexpr std::size_t first_slots = 64;

}  // namespace

Names::Names() : texts_{std::string_view()}, slots_(first_slots) {}

Names::Names(const Names& other) : Names() {
    for (NameId name = 1; name < other.size(); ++name) intern(other.text(name));
}

std::size_t Names::slot_of(std::string_view text, std::size_t hash) const {
    const std::size_t mask = slots_.size() - 1;
    const auto part = static_cast<std::uint32_t>(hash);
    for (std::size_t at = hash & mask;; at = (at + 1) & mask) {
        const Slot& slot = slots_[at];
        if (slot.name == no_name || (slot.hash == part && texts_[slot.name] == text)) return at;
    }
}

std::string_view Names::keep(std::string_view text) {
    if (text.size() > left_) {
        left_ = std::max(block_size, text.size());
        blocks_.push_back(std::make_unique<char[]>(left_));
        block_end_ = blocks_.back().get() + left_;
    }
    char* place = block_end_ - left_;
    std::memcpy(place, text.data(), text.size());
    left_ -= text.size();
    return {place, text.size()};
}

void Names::grow() {
    slots_.assign(2 * slots_.size(), Slot());
    for (NameId name = 1; name < texts_.size(); ++name) {
        const std::size_t hash = std::hash<std::string_view>()(texts_[name]);
        slots_[slot_of(texts_[name], hash)] = {static_cast<std::uint32_t>(hash), name};
    }
}

NameId Names::intern(std::string_view text) {
    if (text.empty()) return no_name;
    const std::size_t hash = std::hash<std::string_view>()(text);
    const std::size_t at = slot_of(text, hash);
    if (slots_[at].name != no_name) return slots_[at].name;
    const auto name = static_cast<NameId>(texts_.size());
    texts_.push_back(keep(text));
    slots_[at] = {static_cast<std::uint32_t>(hash), name};
    if (4 * texts_.size() > 3 * slots_.size()) grow();
    return name;
}

NameId Names::find(std::string_view text) const {
    return text.empty() ? no_name : slots_[slot_of(text, std::hash<std::string_view>()(text))].name;
}

}  // namespace fallwright
