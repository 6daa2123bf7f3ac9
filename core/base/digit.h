// is_digit: one of the ten digits of ASCII, whatever the locale. Figures are read in many places; what counts
// as a digit is said here. std::isdigit asks the locale and may not be given a negative char.
#pragma once

namespace fallwright {

constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

}  // namespace fallwright
