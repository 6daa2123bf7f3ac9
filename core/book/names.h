// Names: every name of a book once, as a small number. Numbers count from 0 in order of first appearance; 0
// is "".
#pragma once

#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

namespace fallwright {

// Valid for the Names it came from only.
using NameId = std::uint32_t;
constexpr NameId no_name = 0;

// Entries hold numbers instead of texts: a book of a million readings names a few thousand things a million
// times, and its ids once each. So texts lie in large blocks and the index is one flat table: about 35 bytes
// and the text itself a name. Texts keep their address until the book goes.
class Names {
  public:
    // Holds "" from the start.
    Names();
    // Every text anew under its number, since views point into the blocks; never by accident: explicit.
    explicit Names(const Names& other);
    Names& operator=(const Names&) = delete;
    Names(Names&&) = default;
    Names& operator=(Names&&) = default;

    // The number of a text, a new one where it was not there.
    NameId intern(std::string_view text);
    // The same without making one: no_name where the text was never interned, so asking leaves no trace.
    NameId find(std::string_view text) const;
    // name: one that intern or find returned.
    std::string_view text(NameId name) const { return texts_[name]; }
    // Gives back what the list of texts found room for beyond those there are.
    void fit() { texts_.shrink_to_fit(); }
    // How many texts there are, "" included: one above the largest number.
    std::size_t size() const { return texts_.size(); }

  private:
    // A place of the table: a text's number, and part of its hash so that most others are told apart without
    // a look at the text.
    struct Slot {
        std::uint32_t hash = 0;
        NameId name = no_name;  // no_name: free
    };
    std::size_t slot_of(std::string_view text, std::size_t hash) const;
    std::string_view keep(std::string_view text);
    void grow();

    std::vector<std::string_view> texts_;
    std::vector<Slot> slots_;  // a power of two, at most three quarters full; probed one by one
    std::vector<std::unique_ptr<char[]>> blocks_;
    char* block_end_ = nullptr;  // of the last block
    std::size_t left_ = 0;       // free before it
};

}  // namespace fallwright
