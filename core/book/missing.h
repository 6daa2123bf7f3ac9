// missing: entries that name something the book does not have. Inside book only.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/book.h"

namespace fallwright {

// Removes the elements `gone` says, keeping the order of the rest.
template <class T, class Gone>
void remove_if(std::vector<T>& entries, Gone gone) {
    entries.erase(std::remove_if(entries.begin(), entries.end(), gone), entries.end());
}

// One finding for all entries that name the same missing thing.
class MissingReferences {
  public:
    explicit MissingReferences(Book& book) : book_(book) {}

    // True where `name` is given and `found` is false: the entry is left out.
    bool missing(std::string_view what, NameId name, bool found, std::uint32_t entry) {
        if (name == no_name || found) return false;
        absent_[{what, name}].push_back(entry);
        book_.entries[entry].refused = true;
        return true;
    }
    void report() {
        for (const auto& [key, entries] : absent_) {
            std::vector<std::string> about;
            for (const std::uint32_t entry : entries) about.push_back(book_.id_of(entry));
            const std::string message = std::string(key.first) + " " + book_.name(key.second) +
                                        " is not in the book; what names it is left out";
            book_.findings.push_back(finding(Code::UnknownReference, std::move(about), message));
        }
    }

  private:
    Book& book_;
    std::map<std::pair<std::string_view, NameId>, std::vector<std::uint32_t>> absent_;
};

}  // namespace fallwright
