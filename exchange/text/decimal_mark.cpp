#include "exchange/text/decimal_mark.h"

#include <algorithm>

#include "base/digit.h"

namespace fallwright::text {

namespace {

std::size_t count(std::string_view text, char c) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), c));
}

// From the first digit or mark to the last: signs and units away.
std::string_view body(std::string_view cell) {
    constexpr std::string_view of_numbers = "0123456789.,";
    const std::size_t begin = cell.find_first_of(of_numbers);
    if (begin == std::string_view::npos) return {};
    return cell.substr(begin, cell.find_last_of(of_numbers) + 1 - begin);
}

// Whether the only mark in `number`, a digit sequence around it, can part thousands: one to three digits, not
// beginning with 0, then three, and no more than `largest`.
bool may_part_thousands(std::string_view number, std::size_t mark, double largest) {
    if (mark < 1 || mark > 3 || number.front() == '0' || number.size() - mark != 4) return false;
    double whole = 0;
    for (const char c : number) whole = is_digit(c) ? whole * 10 + (c - '0') : whole;
    return whole <= largest;
}

}  // namespace

void MarkVote::add(std::string_view cell, double largest) {
    const std::string_view number = body(cell);
    const std::size_t points = count(number, '.');
    const std::size_t commas = count(number, ',');
    const bool plain =
        std::all_of(number.begin(), number.end(), [](char c) { return is_digit(c) || c == '.' || c == ','; });
    if (!plain || points + commas == 0) return;
    const bool comma = commas > 0;
    if (points > 0 && commas > 0) {
        ++(number.rfind(',') > number.rfind('.') ? comma_ : point_);
    } else if (points + commas > 1) {
        ++(comma ? point_ : comma_);
    } else if (!may_part_thousands(number, number.find(comma ? ',' : '.'), largest)) {
        ++(comma ? comma_ : point_);
    } else {
        ++(comma ? weak_comma_ : weak_point_);
    }
}

char MarkVote::mark(char separator) const {
    if (point_ > 0 || comma_ > 0) return comma_ > point_ ? ',' : '.';
    if (weak_comma_ > 0 && weak_point_ == 0 && separator == ';') return ',';
    if (weak_comma_ == 0 && (weak_point_ == 0 || separator == ',')) return '.';
    return '\0';
}

}  // namespace fallwright::text
