#include "store/lines.h"

#include <cstdint>

namespace fallwright::store {

namespace {

constexpr std::string_view nothing_added = ", nothing has been added";

// One row of the table in RFC 3629 section 4: how many bytes follow a first byte, and between which bounds
// the first of those must lie. The bounds keep out overlong forms, surrogates and what is above U+10FFFF.
struct Sequence {
    std::uint8_t first_low, first_high, followers, second_low, second_high;
};

constexpr Sequence sequences[] = {
    {0x00, 0x7F, 0, 0, 0},       {0xC2, 0xDF, 1, 0x80, 0xBF}, {0xE0, 0xE0, 2, 0xA0, 0xBF},
    {0xE1, 0xEC, 2, 0x80, 0xBF}, {0xED, 0xED, 2, 0x80, 0x9F}, {0xEE, 0xEF, 2, 0x80, 0xBF},
    {0xF0, 0xF0, 3, 0x90, 0xBF}, {0xF1, 0xF3, 3, 0x80, 0xBF}, {0xF4, 0xF4, 3, 0x80, 0x8F},
};

bool between(std::uint8_t low, char byte, std::uint8_t high) {
    const auto value = static_cast<std::uint8_t>(byte);
    return low <= value && value <= high;
}

// Length of the character at the front of `bytes` (not empty); 0 where there is none.
std::size_t character(std::string_view bytes) {
    for (const Sequence& row : sequences) {
        if (!between(row.first_low, bytes[0], row.first_high)) continue;
        if (row.followers >= bytes.size()) return 0;
        for (std::size_t at = 1; at <= row.followers; ++at) {
            const bool second = at == 1;
            if (!between(second ? row.second_low : 0x80, bytes[at], second ? row.second_high : 0xBF))
                return 0;
        }
        return std::size_t{row.followers} + 1;
    }
    return 0;
}

std::optional<Finding> refuse_line(const std::string& named, const std::string& line) {
    const auto refused = [&](std::string what, std::string cure) {
        return finding(Code::BadRequest, {named}, std::move(what.append(nothing_added)), std::move(cure));
    };
    if (line.size() > longest_line) {
        return finding(Code::LineTooLong, {named},
                       "an entry of " + std::to_string(line.size()) + " bytes is over 64 KiB" +
                           std::string(nothing_added));
    }
    if (line.empty()) return refused("an entry is empty", "give at least its kind");
    if (line.find('\n') != std::string::npos) {
        return refused("an entry stands on more than one line", "write a line break inside a text as \\n");
    }
    if (line.find('\0') != std::string::npos) {
        return refused("an entry holds a NUL byte", "take the NUL byte out");
    }
    if (!is_utf8(line)) {
        return refused("an entry is no UTF-8 text", "set the terminal or the file it comes from to UTF-8");
    }
    return std::nullopt;
}

}  // namespace

std::optional<Finding> refuse(const std::string& named, const Lines& lines) {
    for (const std::string& line : lines) {
        if (std::optional<Finding> found = refuse_line(named, line)) return found;
    }
    return std::nullopt;
}

std::string with_breaks(const Lines& lines) {
    std::string bytes;
    for (const std::string& line : lines) {
        bytes += line;
        bytes += '\n';
    }
    return bytes;
}

bool is_utf8(std::string_view bytes) {
    while (!bytes.empty()) {
        const std::size_t length = character(bytes);
        if (length == 0) return false;
        bytes.remove_prefix(length);
    }
    return true;
}

}  // namespace fallwright::store
