#include "exchange/text/column_name.h"

#include <optional>
#include <vector>

#include "exchange/text/csv_rows.h"

namespace fallwright::text {

namespace {

// A name of a column cut into what is outside of brackets and the first word inside of each pair.
struct NameParts {
    std::string outside;
    std::vector<std::string> inside;
};

NameParts parts_of(std::string_view name) {
    NameParts parts;
    bool in_brackets = false;
    for (const char c : name) {
        if (c == '(' || c == '[') {
            in_brackets = true;
            parts.inside.emplace_back();
        } else if (c == ')' || c == ']') {
            in_brackets = false;
        } else if (in_brackets) {
            parts.inside.back() += c;
        } else {
            parts.outside += c;
        }
    }
    return parts;
}

// "Dist m", "FS/m", "BS, mm", "Level in m": the last word, taken off with a foregoing "in".
std::string take_last_word(std::string& name) {
    constexpr std::string_view between = " ,/_-\n\r";
    const std::size_t at = name.find_last_of(between);
    if (at == std::string::npos) return {};
    std::string word = name.substr(at + 1);
    name.erase(at);
    const std::size_t before = name.find_last_of(between);
    if (before != std::string::npos && folded(name.substr(before)) == "in") name.erase(before);
    return word;
}

void take_unit(SheetColumn& column, std::string_view word) {
    if (const std::optional<LengthUnit> unit = length_unit(word)) column.unit = *unit;
    column.refused_unit = column.refused_unit || refused_unit(word);
}

}  // namespace

SheetColumn read_column_name(std::string_view name) {
    SheetColumn column;
    column.name = one_line(name);
    NameParts parts = parts_of(name);
    column.holds = column_named(folded(parts.outside));
    if (column.holds == Column::Unknown) {
        const std::string word = take_last_word(parts.outside);
        const bool unit = length_unit(word).has_value() || refused_unit(word);
        if (unit) column.holds = column_named(folded(parts.outside));
        if (column.holds != Column::Unknown) take_unit(column, word);
    }
    for (const std::string& inside : parts.inside) {
        const std::vector<std::string_view> words = words_of(inside);
        if (!words.empty()) take_unit(column, words.front());
    }
    return column;
}

}  // namespace fallwright::text
