#include "exchange/text/sheet_number.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

#include "base/digit.h"
#include "base/print.h"
#include "exchange/text/csv_rows.h"

namespace fallwright::text {

namespace {

constexpr std::size_t most_places = 7;
constexpr std::size_t most_whole_digits = 7;
constexpr std::size_t longest_number = 64;

constexpr std::array<std::int64_t, 8> powers = {1, 10, 100, 1000, 10000, 100000, 1000000, 10000000};

// 128 bits: a number of 14 digits times the 1e10 ticks of a kilometre passes 64.
__extension__ using Wide = __int128;

std::string decimal_text(std::int64_t digits, int places) {
    while (places > 0 && digits % 10 == 0) {
        digits /= 10;
        --places;
    }
    std::string text = std::to_string(std::llabs(digits));
    const auto behind = static_cast<std::size_t>(places);
    if (text.size() <= behind) text.insert(0, behind + 1 - text.size(), '0');
    if (behind > 0) text.insert(text.size() - behind, 1, '.');
    if (digits < 0) text.insert(0, 1, '-');
    return text;
}

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_digit);
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

// The digits of "1,234" or "1'234'567" without their marks; nothing where the groups are none of three.
std::optional<std::string> ungrouped(std::string_view whole, char group) {
    std::string digits;
    std::size_t begin = 0;
    while (begin <= whole.size()) {
        const std::size_t end = std::min(whole.find(group, begin), whole.size());
        const std::string_view piece = whole.substr(begin, end - begin);
        const bool right_size = begin == 0 ? !piece.empty() && piece.size() <= 3 : piece.size() == 3;
        if (!right_size || !all_digits(piece)) return std::nullopt;
        digits += piece;
        begin = end + 1;
    }
    return digits;
}

// Digits in front of the decimal mark. A single group by the other mark may be decimals as well, unless it is
// certain which mark parts decimals.
struct Whole {
    NumberFault fault = NumberFault::None;
    std::string digits;
};

Whole whole_digits(std::string_view whole, char other_mark, bool certain) {
    const std::size_t first = whole.find_first_not_of("0123456789");
    if (first == std::string_view::npos) return {NumberFault::None, std::string(whole)};
    const char group = whole[first];
    if (group != other_mark && group != ' ' && group != '\'') return {NumberFault::NotANumber, {}};
    const std::optional<std::string> digits = ungrouped(whole, group);
    if (!digits) return {NumberFault::NotANumber, {}};
    const bool single = whole.find(group, first + 1) == std::string_view::npos;
    if (group == other_mark && single && !certain) return {NumberFault::Ambiguous, {}};
    return {NumberFault::None, *digits};
}

// digits.decimals as an amount without a unit; decimals beyond the seventh are rounded off.
ParsedAmount assembled(std::string_view whole, std::string_view decimals) {
    whole.remove_prefix(std::min(whole.find_first_not_of('0'), whole.size()));
    if (whole.size() > most_whole_digits) return {NumberFault::TooLarge, {}};
    const std::string_view kept = decimals.substr(0, most_places);
    Amount amount;
    for (const char c : whole) amount.digits = amount.digits * 10 + (c - '0');
    for (const char c : kept) amount.digits = amount.digits * 10 + (c - '0');
    amount.places = static_cast<std::int8_t>(kept.size());
    if (decimals.size() > most_places) {
        if (decimals[most_places] >= '5') ++amount.digits;
        for (; amount.places > 0 && amount.digits % 10 == 0; --amount.places) amount.digits /= 10;
    }
    return {NumberFault::None, amount};
}

ParsedAmount parse_figure(std::string_view figure, DecimalMark given) {
    char mark = given.mark;
    if (mark == '\0') {
        if (figure.find_first_of(".,") != std::string_view::npos) return {NumberFault::Ambiguous, {}};
        mark = '.';
    }
    const std::size_t at = figure.find(mark);
    const bool parted = at != std::string_view::npos;
    const std::string_view decimals = parted ? figure.substr(at + 1) : std::string_view();
    const std::string_view front = figure.substr(0, at);
    if (!all_digits(decimals) || (front.empty() && decimals.empty())) return {NumberFault::NotANumber, {}};
    const Whole whole = whole_digits(front, mark == '.' ? ',' : '.', parted || given.stated);
    if (whole.fault != NumberFault::None) return {whole.fault, {}};
    return assembled(whole.digits, decimals);
}

bool sheet_error(std::string_view text) {
    return !text.empty() && (text.front() == '#' || text.substr(0, 4) == "Err:");
}

ParsedAmount within_limits(ParsedAmount parsed) {
    const std::int64_t limit = static_cast<std::int64_t>(Decimal::limit_metres) * 10000000;
    const Decimal length = parsed.amount.magnitude().length();
    return length.ticks() <= limit ? parsed : ParsedAmount{NumberFault::TooLarge, {}};
}

std::string_view without_spaces_behind(std::string_view text) {
    return text.substr(0, text.find_last_not_of(' ') + 1);
}

}  // namespace

Amount Amount::magnitude() const {
    return {std::llabs(digits), places, unit};
}

Decimal Amount::length() const {
    const Wide divisor = powers[static_cast<unsigned char>(places)];
    const Wide product = static_cast<Wide>(std::llabs(digits)) * scale_of(unit).ticks;
    const auto ticks = static_cast<std::int64_t>((product + divisor / 2) / divisor);
    return Decimal::ticks(negative() ? -ticks : ticks);
}

Decimal Amount::step(int at_places) const {
    const std::int64_t divisor = powers[static_cast<std::size_t>(at_places)];
    return Decimal::ticks((scale_of(unit).ticks + divisor - 1) / divisor);
}

std::string Amount::written(LengthUnit book) const {
    if (unit == book) return decimal_text(digits, places);
    if (book == LengthUnit::Foot) {
        constexpr int places_in_feet = 8;
        const auto ticks = static_cast<double>(length().ticks());
        return trimmed(ticks / static_cast<double>(scale_of(LengthUnit::Foot).ticks), places_in_feet);
    }
    const UnitScale scale = scale_of(unit);
    return decimal_text(digits * scale.factor, places + scale.shift);
}

std::string keyboard_signs(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 8> keyboard = {
        {{"\xE2\x88\x92", "-"},  // minus
         {"\xE2\x80\x93", "-"},  // en dash
         {"\xC2\xA0", " "},      // no-break space
         {"\xE2\x80\x89", " "},  // thin space
         {"\xE2\x80\x87", " "},  // figure space
         {"\xE2\x80\xAF", " "},  // narrow no-break space
         {"\xE2\x80\x99", "'"},  // closing single quote
         {"\xC2\xB4", "'"}}};    // acute accent
    std::string out(text);
    for (const auto& [from, to] : keyboard) replace_all(out, from, to);
    return out;
}

bool stands_for_nothing(std::string_view text) {
    const std::string plain = keyboard_signs(trimmed_text(text));
    return plain.empty() || plain == "-" || plain == "--" || plain == "\xE2\x80\x94" || plain == "n/a" ||
           plain == "N/A";
}

ParsedAmount parse_amount(std::string_view text, DecimalMark mark, LengthUnit unit) {
    text = trimmed_text(text);
    if (sheet_error(text)) return {NumberFault::SheetError, {}};
    if (text.size() > longest_number) return {NumberFault::NotANumber, {}};
    const std::string plain = keyboard_signs(text);
    std::string_view rest = plain;
    const bool negative = !rest.empty() && rest.front() == '-';
    if (!rest.empty() && (negative || rest.front() == '+')) rest.remove_prefix(1);
    rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
    const std::size_t end = std::min(rest.find_first_not_of("0123456789.,' "), rest.size());
    const std::string_view word = trimmed_text(rest.substr(end));
    const std::optional<LengthUnit> own = length_unit(word);
    if (!word.empty() && !own) return {NumberFault::NotANumber, {}};
    ParsedAmount parsed = parse_figure(without_spaces_behind(rest.substr(0, end)), mark);
    if (parsed.fault != NumberFault::None) return parsed;
    parsed.amount.unit = own ? *own : unit;
    if (negative) parsed.amount = parsed.amount.negated();
    return within_limits(parsed);
}

}  // namespace fallwright::text
