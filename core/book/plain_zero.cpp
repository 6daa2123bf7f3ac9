#include "book/plain_zero.h"

#include <cstddef>

#include "base/digit.h"

namespace fallwright {

// Whether a zero with an exponent can be in the line at all. Both of these look at each place without a
// branch, so that the processor takes many at once: all lines pay for them.
static bool may_have_exponent(const std::string& line) {
    unsigned found = 0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        found |= static_cast<unsigned>(line[i] == '0') & static_cast<unsigned>((line[i + 1] | 0x20) == 'e');
    return found != 0;
}

// Whether a zero with many decimals can be, told by three.
static bool may_have_decimals(const std::string& line) {
    unsigned found = 0;
    for (std::size_t i = 0; i + 3 < line.size(); ++i)
        found |= static_cast<unsigned>(line[i] == '.') & static_cast<unsigned>(line[i + 1] == '0') &
                 static_cast<unsigned>(line[i + 2] == '0') & static_cast<unsigned>(line[i + 3] == '0');
    return found != 0;
}

static std::size_t past_digits(const std::string& line, std::size_t at) {
    while (at < line.size() && is_digit(line[at])) ++at;
    return at;
}

// The place after the text that opens at `quote`.
static std::size_t past_text(const std::string& line, std::size_t quote) {
    std::size_t at = quote + 1;
    while (at < line.size() && line[at] != '"') at += line[at] == '\\' ? 2 : 1;
    return at + 1;
}

// The place after the exponent that stands at `at`, or `at` where none does.
static std::size_t past_exponent(const std::string& line, std::size_t at) {
    if (at >= line.size() || (line[at] | 0x20) != 'e') return at;
    std::size_t digits = at + 1;
    if (digits < line.size() && (line[digits] == '+' || line[digits] == '-')) ++digits;
    const std::size_t end = past_digits(line, digits);
    return end == digits ? at : end;
}

// The place after the number whose first digit stands at `first`, which is blanked behind that digit if it is
// 0.
static std::size_t past_number(std::string& line, std::size_t first) {
    const std::size_t whole = past_digits(line, first);
    std::size_t mantissa = whole;
    if (whole < line.size() && line[whole] == '.') {
        const std::size_t decimals = past_digits(line, whole + 1);
        if (decimals > whole + 1) mantissa = decimals;
    }
    const std::size_t end = past_exponent(line, mantissa);
    const bool is_zero = whole == first + 1 && line.find_first_not_of("0.", first) >= mantissa;
    if (is_zero) line.replace(whole, end - whole, end - whole, ' ');
    return end;
}

void plain_zeros(std::string& line) {
    if (!may_have_exponent(line) && !may_have_decimals(line)) return;
    for (std::size_t at = 0; at < line.size();) {
        if (line[at] == '"')
            at = past_text(line, at);
        else if (is_digit(line[at]))
            at = past_number(line, at);
        else
            ++at;
    }
}

}  // namespace fallwright
