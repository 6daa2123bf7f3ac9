#include "case_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace fallwright::cases {
namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool begins_name(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '_';
}
bool within_name(char c) {
    return begins_name(c) || is_digit(c) || c == '-' || c == '.';
}

// Length of the number that stands at the beginning of text; 0 if none does.
std::size_t number_length(std::string_view text) {
    std::size_t i = 0;
    auto digits = [&] {
        const std::size_t from = i;
        while (i < text.size() && is_digit(text[i])) ++i;
        return i > from;
    };
    if (i < text.size() && text[i] == '-') ++i;
    if (!digits()) return 0;
    if (i < text.size() && text[i] == '.') {
        ++i;
        if (!digits()) return 0;
    }
    if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
        ++i;
        if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
        if (!digits()) return 0;
    }
    return i;
}

// End of the quoted text that begins at text[from].
std::size_t quote_end(std::string_view text, std::size_t from) {
    for (std::size_t i = from + 1; i < text.size(); ++i) {
        if (text[i] == '\\')
            ++i;
        else if (text[i] == '"')
            return i + 1;
    }
    throw Complaint("a quote is not closed");
}

bool is_constant(std::string_view word) {
    return word == "true" || word == "false" || word == "null";
}

std::string bracket_as_json(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t number = number_length(text.substr(i));
        std::size_t end = i + 1;
        if (number > 0) {
            end = i + number;
        } else if (text[i] == '"') {
            end = quote_end(text, i);
        } else if (begins_name(text[i])) {
            while (end < text.size() && within_name(text[end])) ++end;
            const std::string_view name = text.substr(i, end - i);
            out += is_constant(name) ? std::string(name) : in_quotes(name);
            i = end;
            continue;
        }
        out += text.substr(i, end - i);
        i = end;
    }
    return out;
}

}  // namespace

std::string in_quotes(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c;
    }
    return out + '"';
}

std::string_view trimmed_text(std::string_view text) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

std::vector<std::string> split_words(std::string_view line) {
    std::vector<std::string> words;
    std::string word;
    int depth = 0;
    for (std::size_t i = 0; i < line.size();) {
        const char c = line[i];
        std::size_t end = i + 1;
        if (c == '"') end = quote_end(line, i);
        if (c == '[' || c == '{') ++depth;
        if (c == ']' || c == '}') --depth;
        if (is_blank(c) && depth == 0) {
            if (!word.empty()) words.push_back(std::exchange(word, {}));
        } else {
            word += line.substr(i, end - i);
        }
        i = end;
    }
    if (depth != 0) throw Complaint("a bracket is not closed");
    if (!word.empty()) words.push_back(word);
    return words;
}

bool is_number(std::string_view word) {
    return !word.empty() && number_length(word) == word.size();
}

std::string word_as_json(std::string_view word) {
    if (is_number(word) || is_constant(word)) return std::string(word);
    if (word.empty()) return "\"\"";
    if (word.front() == '"') return std::string(word);
    if (word.front() == '[' || word.front() == '{') return bracket_as_json(word);
    return in_quotes(word);
}

Printed printed_number(std::string_view word) {
    if (!is_number(word)) throw Complaint("\"" + std::string(word) + "\" is no number");
    Printed printed;
    printed.value = std::strtod(std::string(word).c_str(), nullptr);
    const std::size_t exponent_at = std::min(word.find_first_of("eE"), word.size());
    const std::string_view mantissa = word.substr(0, exponent_at);
    const std::size_t point = mantissa.find('.');
    int place = point == std::string_view::npos ? 0 : -static_cast<int>(mantissa.size() - point - 1);
    if (exponent_at < word.size()) place += std::atoi(std::string(word.substr(exponent_at + 1)).c_str());
    printed.half_digit = 0.5 * std::pow(10.0, place);
    return printed;
}

double unit_factor(std::string_view unit) {
    constexpr std::array<std::pair<std::string_view, double>, 4> units{
        {{"mm", 0.001}, {"mm/m", 0.001}, {"permille", 0.001}, {"%", 0.01}}};
    for (const auto& [name, factor] : units) {
        if (name == unit) return factor;
    }
    return 0;
}

}  // namespace fallwright::cases
