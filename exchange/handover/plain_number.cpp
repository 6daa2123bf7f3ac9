#include "exchange/handover/plain_number.h"

#include <array>
#include <cstdint>

#include "base/digit.h"

namespace fallwright::handover {

namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

// Powers of ten up to 22 are exact.
double scaled(double value, int exponent) {
    constexpr int exact = 22;
    constexpr std::array<double, exact + 1> powers = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                      1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                      1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    for (; exponent > exact; exponent -= exact) value *= powers[exact];
    for (; exponent < -exact; exponent += exact) value /= powers[exact];
    return exponent < 0 ? value / powers[static_cast<std::size_t>(-exponent)]
                        : value * powers[static_cast<std::size_t>(exponent)];
}

// The exponent after e; nothing where it is none.
std::optional<int> exponent_of(std::string_view text) {
    if (text.empty()) return std::nullopt;
    const bool negative = text[0] == '-';
    if (text[0] == '-' || text[0] == '+') text.remove_prefix(1);
    constexpr std::size_t longest = 4;
    if (text.empty() || text.size() > longest) return std::nullopt;
    int value = 0;
    for (const char c : text) {
        if (!is_digit(c)) return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return negative ? -value : value;
}

}  // namespace

std::optional<double> plain_number(std::string_view text) {
    constexpr std::uint64_t room = 900719925474099;  // so that another digit stays below 2^53
    std::uint64_t digits = 0;
    int exponent = 0, seen = 0;
    bool point = false, negative = false;
    std::size_t at = 0;
    if (!text.empty() && (text[0] == '-' || text[0] == '+')) negative = text[at++] == '-';
    for (; at < text.size() && (is_digit(text[at]) || (text[at] == '.' && !point)); ++at) {
        if (text[at] == '.') {
            point = true;
            continue;
        }
        ++seen;
        const bool taken = digits < room;
        if (taken) digits = 10 * digits + static_cast<std::uint64_t>(text[at] - '0');
        exponent += taken ? (point ? -1 : 0) : (point ? 0 : 1);
    }
    if (seen == 0) return std::nullopt;
    if (at < text.size()) {
        if (text[at] != 'e' && text[at] != 'E') return std::nullopt;
        const std::optional<int> more = exponent_of(text.substr(at + 1));
        if (!more) return std::nullopt;
        exponent += *more;
    }
    constexpr int most = 280;
    if (digits != 0 && (exponent > most || exponent < -most)) return std::nullopt;
    const double value = digits == 0 ? 0.0 : scaled(static_cast<double>(digits), exponent);
    return negative ? -value : value;
}

std::optional<std::vector<double>> plain_numbers(std::string_view text, std::size_t most) {
    std::vector<double> all;
    for (std::size_t at = 0; at < text.size();) {
        if (is_blank(text[at])) {
            ++at;
            continue;
        }
        std::size_t end = at;
        while (end < text.size() && !is_blank(text[end])) ++end;
        const std::optional<double> value = plain_number(text.substr(at, end - at));
        if (!value || all.size() == most) return std::nullopt;
        all.push_back(*value);
        at = end;
    }
    return all;
}

}  // namespace fallwright::handover
