// Record: one line of a book as JSON, flat in two reused buffers. A tree of objects would cost kilobytes a
// line.
//
// Node 0 is the entry's object. A container's children follow it; `end` is the index past its last
// descendant, so the next sibling of node i is nodes[i].end. Texts are read in place in one copy of the line
// and are seen through text().
//
// Inside book only.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fallwright {

// Bounds of contract section 1: what is beyond is a fault, found before any memory is spent on it.
constexpr std::size_t longest_line = std::size_t{64} * 1024;
constexpr int deepest_nesting = 32;

// JSON's own types.
enum class NodeType : std::uint8_t { Null, Bool, Number, Text, Array, Object };

// key and text are places in the pool, empty where there is none: an element of an array has no key.
struct Node {
    NodeType type = NodeType::Null;
    bool boolean = false;
    bool known = false;      // somebody asked for this member
    std::uint8_t shape = 0;  // of its key, see key_shape
    double number = 0;
    std::uint32_t key_start = 0, key_size = 0;
    std::uint32_t text_start = 0, text_size = 0;
    std::uint32_t end = 0;
    std::uint64_t shapes = 0;  // of an object: of its members' keys, see shape_bit
};

// Why a line is no record, in the order of the checks: size, syntax, depth, numbers, top level, keys.
enum class ParseFault : std::uint8_t { None, Torn, TooLong, TooDeep, RepeatedKey, NotFinite, NoObject };

// Reused from line to line: after the first few lines no memory is asked for any more. A parse leaves nothing
// of the line before.
class Record {
  public:
    // Reads one line; on a fault the content is unspecified.
    ParseFault parse(std::string_view line);

    // index below size(); 0 is the whole object.
    const Node& node(std::uint32_t index) const { return nodes_[index]; }
    // Views stay valid until the next parse.
    std::string_view key(const Node& node) const { return {pool_.data() + node.key_start, node.key_size}; }
    std::string_view text(const Node& node) const { return {pool_.data() + node.text_start, node.text_size}; }
    // Used by Fields to tell members nobody asked for.
    void mark_known(std::uint32_t index) { nodes_[index].known = true; }
    std::uint32_t size() const { return static_cast<std::uint32_t>(nodes_.size()); }

  private:
    friend class RecordBuilder;
    bool has_repeated_key(std::uint32_t object) const;
    std::vector<Node> nodes_;
    std::string pool_;
    std::vector<std::uint32_t> open_;  // containers not yet closed
    bool alike_ = false;               // some object has two keys of one shape
};

// A number below 64 from a key's length, first character and last but one: keys of different shapes differ.
// The factors were sought so that the keys of one entry rarely share a shape.
constexpr std::uint8_t key_shape(std::string_view key) {
    if (key.empty()) return 0;
    const auto first = static_cast<unsigned char>(key.front());
    const auto late = static_cast<unsigned char>(key[key.size() < 2 ? 0 : key.size() - 2]);
    return static_cast<std::uint8_t>((5 * first + 9 * late + 3 * key.size()) & 63);
}
// A set of shapes with that one in it.
constexpr std::uint64_t shape_bit(std::uint8_t shape) {
    return std::uint64_t{1} << shape;
}

}  // namespace fallwright
