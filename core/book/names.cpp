#include "book/names.h"

namespace fallwright {

Names::Names() {
    texts_.emplace_back();
    index_.emplace(texts_.back(), no_name);
}

NameId Names::intern(std::string_view text) {
    const auto found = index_.find(text);
    if (found != index_.end()) return found->second;
    const auto name = static_cast<NameId>(texts_.size());
    texts_.emplace_back(text);
    index_.emplace(texts_.back(), name);
    return name;
}

NameId Names::find(std::string_view text) const {
    const auto found = index_.find(text);
    return found == index_.end() ? no_name : found->second;
}

}  // namespace fallwright
