#include "book/record.h"

#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "book/plain_zero.h"

namespace fallwright {

// Receives the parser's events and lays them out flat. Returning false stops the parse.
class RecordBuilder {
  public:
    explicit RecordBuilder(Record& record) : record_(record) {}

    ParseFault fault() const { return fault_; }

    bool Null() { return add(NodeType::Null); }
    bool Bool(bool value) {
        add(NodeType::Bool);
        record_.nodes_.back().boolean = value;
        return true;
    }
    bool Int(int value) { return add_number(value); }
    bool Uint(unsigned value) { return add_number(value); }
    bool Int64(std::int64_t value) { return add_number(static_cast<double>(value)); }
    bool Uint64(std::uint64_t value) { return add_number(static_cast<double>(value)); }
    bool Double(double value) { return add_number(value); }
    bool RawNumber(const char*, rapidjson::SizeType, bool) { return false; }
    bool String(const char* text, rapidjson::SizeType size, bool) {
        add(NodeType::Text);
        Node& node = record_.nodes_.back();
        node.text_start = place_of(text);
        node.text_size = size;
        return true;
    }
    bool StartObject() { return open(NodeType::Object); }
    bool StartArray() { return open(NodeType::Array); }
    bool EndObject(rapidjson::SizeType) { return close(); }
    bool EndArray(rapidjson::SizeType) { return close(); }
    bool Key(const char* text, rapidjson::SizeType size, bool) {
        key_start_ = place_of(text);
        key_size_ = size;
        return true;
    }

  private:
    std::uint32_t place_of(const char* text) const {
        return static_cast<std::uint32_t>(text - record_.pool_.data());
    }
    bool add(NodeType type) {
        Node node;
        node.type = type;
        node.key_start = key_start_;
        node.key_size = key_size_;
        node.shape = key_shape(record_.key(node));
        key_size_ = 0;
        node.end = record_.size() + 1;
        if (!record_.open_.empty()) note_shape(record_.nodes_[record_.open_.back()], node.shape);
        record_.nodes_.push_back(node);
        return true;
    }
    void note_shape(Node& parent, std::uint8_t shape) {
        if (parent.type != NodeType::Object) return;
        record_.alike_ = record_.alike_ || (parent.shapes & shape_bit(shape)) != 0;
        parent.shapes |= shape_bit(shape);
    }
    bool add_number(double value) {
        if (!std::isfinite(value)) {
            fault_ = ParseFault::NotFinite;
            return false;
        }
        add(NodeType::Number);
        record_.nodes_.back().number = value;
        return true;
    }
    bool open(NodeType type) {
        if (record_.open_.size() >= deepest_nesting) {
            fault_ = ParseFault::TooDeep;
            return false;
        }
        add(type);
        record_.open_.push_back(record_.size() - 1);
        return true;
    }
    bool close() {
        record_.nodes_[record_.open_.back()].end = record_.size();
        record_.open_.pop_back();
        return true;
    }

    Record& record_;
    std::uint32_t key_start_ = 0, key_size_ = 0;
    ParseFault fault_ = ParseFault::None;
};

bool Record::has_repeated_key(std::uint32_t object) const {
    std::vector<std::string_view> keys;
    for (std::uint32_t child = object + 1; child < nodes_[object].end; child = nodes_[child].end)
        keys.push_back(key(nodes_[child]));
    std::sort(keys.begin(), keys.end());
    return std::adjacent_find(keys.begin(), keys.end()) != keys.end();
}

// The parser could look at every character it reads; of a line that is ASCII one look tells.
static bool is_utf8(std::string_view line) {
    const auto bits = std::accumulate(line.begin(), line.end(), 0u, [](unsigned all, char c) {
        return all | static_cast<unsigned char>(c);
    });
    if (bits < 0x80) return true;
    struct Nowhere {
        void Put(char) {}
    } nowhere;
    rapidjson::MemoryStream text(line.data(), line.size());
    while (text.Tell() < line.size()) {
        if (!rapidjson::UTF8<>::Validate(text, nowhere)) return false;
    }
    return true;
}

ParseFault Record::parse(std::string_view line) {
    nodes_.clear();
    open_.clear();
    alike_ = false;
    if (line.size() > longest_line) return ParseFault::TooLong;
    // The parser would take a NUL for the end and lose what stands behind it without a word.
    if (line.find('\0') != std::string_view::npos || !is_utf8(line)) return ParseFault::Torn;
    pool_ = line;
    plain_zeros(pool_);
    RecordBuilder builder(*this);
    constexpr unsigned strict = rapidjson::kParseInsituFlag | rapidjson::kParseFullPrecisionFlag;
    rapidjson::InsituStringStream text(pool_.data());
    const rapidjson::ParseResult parsed = rapidjson::Reader().Parse<strict>(text, builder);
    if (parsed.Code() == rapidjson::kParseErrorNumberTooBig) return ParseFault::NotFinite;
    if (parsed.IsError()) return builder.fault() == ParseFault::None ? ParseFault::Torn : builder.fault();
    if (nodes_.empty() || nodes_.front().type != NodeType::Object) return ParseFault::NoObject;
    for (std::uint32_t i = 0; alike_ && i < size(); ++i) {
        if (nodes_[i].type == NodeType::Object && has_repeated_key(i)) return ParseFault::RepeatedKey;
    }
    return ParseFault::None;
}

}  // namespace fallwright
