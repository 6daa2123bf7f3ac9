#include "sheet/markup.h"

#include "base/print.h"

namespace fallwright::sheet {

namespace {

constexpr char32_t broken = 0xfffd;

// Bytes of a character, the bits its first one brings, and the least value that needs so many; length 0: none
// begins so.
struct Head {
    std::size_t length;
    char32_t bits, least;
};

Head head_of(unsigned char first) {
    if (first < 0x80) return {1, first, 0};
    if (first >= 0xc2 && first < 0xe0) return {2, first & 0x1fU, 0x80};
    if (first >= 0xe0 && first < 0xf0) return {3, first & 0x0fU, 0x800};
    if (first >= 0xf0 && first < 0xf5) return {4, first & 0x07U, 0x10000};
    return {0, 0, 0};
}

bool is_character(char32_t value, char32_t least) {
    return value >= least && value <= 0x10ffff && (value < 0xd800 || value > 0xdfff);
}

// What XML 1.0 lets stand, line breaks and tabs as spaces.
char32_t allowed(char32_t c) {
    if (c == '\t' || c == '\n' || c == '\r') return ' ';
    return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0xfffe || c == 0xffff ? broken : c;
}

}  // namespace

char32_t next_character(std::string_view text, std::size_t& at) {
    const Head head = head_of(static_cast<unsigned char>(text[at]));
    const std::size_t begin = at++, end = begin + head.length;
    if (head.length == 0 || end > text.size()) return broken;
    char32_t value = head.bits;
    for (std::size_t k = begin + 1; k < end; ++k) {
        const auto byte = static_cast<unsigned char>(text[k]);
        if ((byte & 0xc0U) != 0x80U) return broken;
        value = value << 6U | (byte & 0x3fU);
    }
    if (!is_character(value, head.least)) return broken;
    at = end;
    return value;
}

void append_character(std::string& out, char32_t c) {
    const auto tail = [&](unsigned shift) { out += static_cast<char>(0x80U | ((c >> shift) & 0x3fU)); };
    if (c < 0x80) {
        out += static_cast<char>(c);
    } else if (c < 0x800) {
        out += static_cast<char>(0xc0U | (c >> 6U));
        tail(0);
    } else if (c < 0x10000) {
        out += static_cast<char>(0xe0U | (c >> 12U));
        tail(6);
        tail(0);
    } else {
        out += static_cast<char>(0xf0U | (c >> 18U));
        tail(12);
        tail(6);
        tail(0);
    }
}

void append_escaped(std::string& out, std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const char32_t c = allowed(next_character(text, at));
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            default:
                append_character(out, c);
        }
    }
}

void append_plain(std::string& out, std::string_view text) {
    for (std::size_t at = 0; at < text.size();) append_character(out, allowed(next_character(text, at)));
}

void attribute(std::string& out, std::string_view name, std::string_view value) {
    out += ' ';
    out += name;
    out += "=\"";
    append_escaped(out, value);
    out += '"';
}

void attribute(std::string& out, std::string_view name, double value) {
    constexpr int places = 3;
    out += ' ';
    out += name;
    out += "=\"";
    append_trimmed(out, value, places);
    out += '"';
}

}  // namespace fallwright::sheet
