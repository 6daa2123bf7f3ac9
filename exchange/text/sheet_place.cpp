#include "exchange/text/sheet_place.h"

#include <algorithm>
#include <string>

#include "exchange/text/csv_rows.h"
#include "exchange/text/sheet_words.h"

namespace fallwright::text {

namespace {

// Letters of one word in front, lower case, without its dots; they are taken off `text`.
std::string take_word(std::string_view& text) {
    if (text.empty() || text.front() == '.' || text.front() == ',') return {};
    const std::size_t end = std::min(text.find_first_of("0123456789+-"), text.size());
    std::string word = folded(text.substr(0, end));
    text.remove_prefix(end);
    return word;
}

}  // namespace

std::optional<Amount> parse_chainage(std::string_view text, DecimalMark mark, LengthUnit unit) {
    const std::string plain = keyboard_signs(trimmed_text(text));
    std::string_view rest = plain;
    const std::string word = take_word(rest);
    if (!word.empty() && !one_of(word, "ch chainage cha sta stn station km pk")) return std::nullopt;
    std::string number(rest);
    const std::size_t plus = number.find('+', 1);
    if (plus != std::string::npos) {
        const std::size_t begin = plus + 1;
        const std::size_t end = std::min(number.find_first_not_of("0123456789", begin), number.size());
        if (end - begin != 2 && end - begin != 3) return std::nullopt;
        number.erase(plus, 1);
    } else if (word == "km") {
        unit = LengthUnit::Kilometre;
    }
    const ParsedAmount parsed = parse_amount(number, mark, unit);
    return parsed.fault == NumberFault::None ? std::optional<Amount>(parsed.amount) : std::nullopt;
}

std::optional<Amount> parse_offset(std::string_view text, DecimalMark mark, LengthUnit unit) {
    const std::string plain = keyboard_signs(trimmed_text(text));
    const std::string_view whole = plain;
    const std::size_t last = whole.find_last_of("0123456789");
    if (last == std::string_view::npos) {
        const bool centre = one_of(folded(whole), "cl c centre center centreline centerline");
        return centre ? std::optional<Amount>(Amount{0, 0, unit}) : std::nullopt;
    }
    std::string_view number = whole;
    std::string side = take_word(number);
    if (side.empty()) {
        side = folded(whole.substr(last + 1));
        number = whole.substr(0, last + 1);
    }
    if (length_unit(side)) {
        side.clear();
        number = whole;
    }
    const bool left = one_of(side, "l left lhs lt links gauche izquierda");
    const bool right = one_of(side, "r right rhs rt rechts droite derecha");
    const ParsedAmount parsed = parse_amount(number, mark, unit);
    if (parsed.fault != NumberFault::None || (!side.empty() && !left && !right)) return std::nullopt;
    if (!side.empty() && parsed.amount.negative()) return std::nullopt;
    return left ? parsed.amount.negated() : parsed.amount;
}

}  // namespace fallwright::text
