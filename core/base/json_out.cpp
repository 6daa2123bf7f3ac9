#include "base/json_out.h"

#include <algorithm>
#include <cassert>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr std::size_t piece = 1u << 16;

bool needs_escape(char c) {
    return c == '"' || c == '\\' || static_cast<unsigned char>(c) < 0x20;
}

}  // namespace

void append_json_string(std::string& out, std::string_view value) {
    if (std::none_of(value.begin(), value.end(), needs_escape)) {
        out += '"';
        out += value;
        out += '"';
        return;
    }
    static constexpr char hex[] = "0123456789abcdef";
    out += '"';
    for (const char c : value) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (c == '\n') {
            out += "\\n";
        } else if (c == '\t') {
            out += "\\t";
        } else if (byte < 0x20) {
            out += "\\u00";
            out += hex[byte >> 4];
            out += hex[byte & 15];
        } else {
            out += c;
        }
    }
    out += '"';
}

void JsonOut::separate() {
    if (!first_) out_ += ',';
    first_ = false;
    if (sink_ && out_.size() >= piece) {
        sink_(out_);
        out_.clear();
    }
}

JsonOut& JsonOut::begin_object() {
    separate();
    out_ += '{';
    first_ = true;
    return *this;
}

JsonOut& JsonOut::end_object() {
    out_ += '}';
    first_ = false;
    return *this;
}

JsonOut& JsonOut::begin_array() {
    separate();
    out_ += '[';
    first_ = true;
    return *this;
}

JsonOut& JsonOut::end_array() {
    out_ += ']';
    first_ = false;
    return *this;
}

JsonOut& JsonOut::key(std::string_view name) {
    assert(std::none_of(name.begin(), name.end(), needs_escape));
    separate();
    const std::size_t at = out_.size();
    out_.resize(at + name.size() + 3);
    out_[at] = '"';
    name.copy(out_.data() + at + 1, name.size());
    out_[at + name.size() + 1] = '"';
    out_.back() = ':';
    first_ = true;
    return *this;
}

JsonOut& JsonOut::text(std::string_view value) {
    separate();
    append_json_string(out_, value);
    return *this;
}

JsonOut& JsonOut::boolean(bool value) {
    return raw(value ? "true" : "false");
}

JsonOut& JsonOut::integer(long long value) {
    return raw(std::to_string(value));
}

JsonOut& JsonOut::null() {
    return raw("null");
}

JsonOut& JsonOut::number(double value, int places) {
    separate();
    append_trimmed(out_, value, places);
    return *this;
}

JsonOut& JsonOut::figures(double value, int count) {
    separate();
    append_significant(out_, value, count);
    return *this;
}

JsonOut& JsonOut::raw(std::string_view json) {
    separate();
    out_ += json;
    return *this;
}

}  // namespace fallwright
