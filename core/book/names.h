// Names: every name of a book once, as a small number. Numbers count from 0 in order of first appearance; 0
// is "".
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <unordered_map>

namespace fallwright {

// Valid for the Names it came from only.
using NameId = std::uint32_t;
constexpr NameId no_name = 0;

// Entries hold numbers instead of texts: a book of a million readings names a few thousand things a million
// times. Cost: one hash lookup a name. Texts keep their address until the book goes.
class Names {
  public:
    // Holds "" from the start. Moves, but does not copy: views point into it.
    Names();
    Names(const Names&) = delete;
    Names& operator=(const Names&) = delete;
    Names(Names&&) = default;
    Names& operator=(Names&&) = default;

    // The number of a text, a new one where it was not there.
    NameId intern(std::string_view text);
    // The same without making one: no_name where the text was never interned, so asking leaves no trace.
    NameId find(std::string_view text) const;
    // name: one that intern or find returned.
    const std::string& text(NameId name) const { return texts_[name]; }
    // How many texts there are, "" included: one above the largest number.
    std::size_t size() const { return texts_.size(); }

  private:
    // Texts by number, and numbers by text; the views of the index point into the texts.
    std::deque<std::string> texts_;  // stable addresses: the index points into them
    std::unordered_map<std::string_view, NameId> index_;
};

}  // namespace fallwright
