#include "base/json_out.h"

#include <algorithm>
#include <cassert>
#include <charconv>
#include <utility>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr std::size_t piece = 1u << 16;
constexpr std::size_t integer_room = 20;

bool needs_escape(char c) {
    return c == '"' || c == '\\' || static_cast<unsigned char>(c) < 0x20;
}

// Of a control character; the longest that one byte becomes.
constexpr std::size_t escape_room = 6;

std::size_t string_room(std::string_view value) {
    return escape_room * value.size() + 2;
}

char* write_escaped(char* at, char c) {
    static constexpr char hex[] = "0123456789abcdef";
    *at++ = '\\';
    if (c == '"' || c == '\\') {
        *at++ = c;
    } else if (c == '\n' || c == '\t') {
        *at++ = c == '\n' ? 'n' : 't';
    } else {
        at = std::copy_n("u00", 3, at);
        *at++ = hex[static_cast<unsigned char>(c) >> 4];
        *at++ = hex[static_cast<unsigned char>(c) & 15];
    }
    return at;
}

char* write_string(char* at, std::string_view value) {
    *at++ = '"';
    while (!value.empty()) {
        const auto plain = std::find_if(value.begin(), value.end(), needs_escape);
        at = std::copy(value.begin(), plain, at);
        value.remove_prefix(static_cast<std::size_t>(plain - value.begin()));
        if (value.empty()) break;
        at = write_escaped(at, value.front());
        value.remove_prefix(1);
    }
    *at++ = '"';
    return at;
}

}  // namespace

void append_json_string(std::string& out, std::string_view value) {
    const std::size_t before = out.size();
    out.resize(before + string_room(value));
    const char* const end = write_string(out.data() + before, value);
    out.resize(static_cast<std::size_t>(end - out.data()));
}

std::string JsonOut::take() {
    first_ = true;
    out_.resize(std::exchange(used_, 0));
    return std::exchange(out_, {});
}

// All is written straight into its place: most pieces are a few bytes, and to put them together elsewhere
// first took longer than to make them.
char* JsonOut::place(std::size_t size) {
    if (sink_ && used_ >= piece) {
        sink_(std::string_view(out_.data(), used_));
        used_ = 0;
    }
    if (out_.size() < used_ + size + 1) out_.resize(std::max(2 * out_.size(), used_ + size + 1));
    char* at = out_.data() + used_;
    if (!first_) *at++ = ',';
    first_ = false;
    return at;
}

void JsonOut::put(char sign) {
    char* const at = place(1);
    *at = sign;
    wrote(at + 1);
}

JsonOut& JsonOut::open(char bracket) {
    put(bracket);
    first_ = true;
    return *this;
}

JsonOut& JsonOut::close(char bracket) {
    first_ = true;
    put(bracket);
    return *this;
}

JsonOut& JsonOut::begin_object() {
    return open('{');
}

JsonOut& JsonOut::end_object() {
    return close('}');
}

JsonOut& JsonOut::begin_array() {
    return open('[');
}

JsonOut& JsonOut::end_array() {
    return close(']');
}

JsonOut& JsonOut::key(std::string_view name) {
    assert(std::none_of(name.begin(), name.end(), needs_escape));
    char* at = place(name.size() + 3);
    *at++ = '"';
    at = std::copy(name.begin(), name.end(), at);
    *at++ = '"';
    *at++ = ':';
    wrote(at);
    first_ = true;
    return *this;
}

JsonOut& JsonOut::own_key(std::string_view name) {
    text(name);
    first_ = true;
    put(':');
    first_ = true;
    return *this;
}

JsonOut& JsonOut::text(std::string_view value) {
    wrote(write_string(place(string_room(value)), value));
    return *this;
}

JsonOut& JsonOut::boolean(bool value) {
    return raw(value ? "true" : "false");
}

JsonOut& JsonOut::integer(long long value) {
    char* const at = place(integer_room);
    wrote(std::to_chars(at, at + integer_room, value).ptr);
    return *this;
}

JsonOut& JsonOut::null() {
    return raw("null");
}

JsonOut& JsonOut::number(double value, int places) {
    wrote(write_trimmed(place(number_room), value, places));
    return *this;
}

JsonOut& JsonOut::figures(double value, int count) {
    wrote(write_significant(place(number_room), value, count));
    return *this;
}

JsonOut& JsonOut::raw(std::string_view json) {
    wrote(std::copy(json.begin(), json.end(), place(json.size())));
    return *this;
}

}  // namespace fallwright
