#include "book/record.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace fallwright {

// Receives the parser's events and lays them out flat. Returning false stops the parse.
class RecordBuilder : public nlohmann::json_sax<nlohmann::json> {
  public:
    explicit RecordBuilder(Record& record) : record_(record) {}

    ParseFault fault() const { return fault_; }

    bool null() override { return add(NodeType::Null); }
    bool boolean(bool value) override {
        add(NodeType::Bool);
        record_.nodes_.back().boolean = value;
        return true;
    }
    bool number_integer(number_integer_t value) override { return add_number(static_cast<double>(value)); }
    bool number_unsigned(number_unsigned_t value) override { return add_number(static_cast<double>(value)); }
    bool number_float(number_float_t value, const string_t&) override { return add_number(value); }
    bool string(string_t& value) override {
        add(NodeType::Text);
        Node& node = record_.nodes_.back();
        node.text_start = static_cast<std::uint32_t>(record_.pool_.size());
        node.text_size = static_cast<std::uint32_t>(value.size());
        record_.pool_ += value;
        return true;
    }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(NodeType::Object); }
    bool start_array(std::size_t) override { return open(NodeType::Array); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& value) override {
        key_start_ = static_cast<std::uint32_t>(record_.pool_.size());
        key_size_ = static_cast<std::uint32_t>(value.size());
        record_.pool_ += value;
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& error) override {
        constexpr int number_overflow = 406;
        fault_ = error.id == number_overflow ? ParseFault::NotFinite : ParseFault::Torn;
        return false;
    }

  private:
    bool add(NodeType type) {
        Node node;
        node.type = type;
        node.key_start = key_start_;
        node.key_size = key_size_;
        key_size_ = 0;
        node.end = record_.size() + 1;
        record_.nodes_.push_back(node);
        return true;
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
        record_.open_.push_back(record_.size());
        return add(type);
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
    std::uint64_t shapes = 0;
    bool alike = false;
    for (std::uint32_t child = object + 1; child < nodes_[object].end; child = nodes_[child].end) {
        const std::uint64_t shape = key_shape(key(nodes_[child]));
        alike = alike || (shapes & shape) != 0;
        shapes |= shape;
    }
    if (!alike) return false;
    std::vector<std::string_view> keys;
    for (std::uint32_t child = object + 1; child < nodes_[object].end; child = nodes_[child].end)
        keys.push_back(key(nodes_[child]));
    std::sort(keys.begin(), keys.end());
    return std::adjacent_find(keys.begin(), keys.end()) != keys.end();
}

ParseFault Record::parse(std::string_view line) {
    nodes_.clear();
    pool_.clear();
    open_.clear();
    if (line.size() > longest_line) return ParseFault::TooLong;
    RecordBuilder builder(*this);
    const bool whole = nlohmann::json::sax_parse(line.begin(), line.end(), &builder);
    if (!whole) return builder.fault() == ParseFault::None ? ParseFault::Torn : builder.fault();
    if (nodes_.empty() || nodes_.front().type != NodeType::Object) return ParseFault::NoObject;
    for (std::uint32_t i = 0; i < size(); ++i) {
        if (nodes_[i].type == NodeType::Object && has_repeated_key(i)) return ParseFault::RepeatedKey;
    }
    return ParseFault::None;
}

}  // namespace fallwright
