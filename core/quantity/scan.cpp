#include "quantity/scan.h"

#include <array>
#include <utility>

#include "base/digit.h"
#include "base/finding.h"

namespace fallwright {

namespace {

using Kind = Token::Kind;

// UTF-8 as typed, and what it stands for.
constexpr std::array<std::pair<std::string_view, std::string_view>, 26> typography = {{
    {"\u2212", "-"},           // minus
    {"\u2013", "-"},           // dash
    {"\u00b1", "+-"},          // plus-minus
    {"\u2030", " permille "},  // permille
    {"\u00b0", " deg "},       // degree
    {"\u00ba", " deg "},       // the ordinal sign that keyboards give for it
    {"\u2236", ":"},           // ratio
    {"\u2032", "'"},           // prime
    {"\u2019", "'"},           // closing quote
    {"\u2033", "\""},          // double prime
    {"\u201d", "\""},          // closing double quote
    {"\u00a0", " "},           // no-break space
    {"\u202f", " "},           // narrow no-break space
    {"\u2009", " "},           // thin space
    {"\u00bc", " 1/4 "},
    {"\u00bd", " 1/2 "},
    {"\u00be", " 3/4 "},
    {"\u215b", " 1/8 "},
    {"\u215c", " 3/8 "},
    {"\u215d", " 5/8 "},
    {"\u215e", " 7/8 "},
    {"\u2044", "/"},   // fraction slash
    {"\u2215", "/"},   // division slash
    {"\u00b3", "^3"},  // cubed
    {"''", "\""},
    {"+/-", "+-"},
}};

constexpr std::size_t longest_text = 200;
constexpr int most_whole_digits = 12;
constexpr int most_digits = 18;

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_letter(char c) {
    return c >= 'a' && c <= 'z';
}

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

std::string evened(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        std::size_t taken = 0;
        for (const auto& [typed, meant] : typography) {
            if (text.substr(0, typed.size()) != typed) continue;
            out += meant;
            taken = typed.size();
            break;
        }
        if (taken == 0) {
            out += lower(text.front());
            taken = 1;
        }
        text.remove_prefix(taken);
    }
    return out;
}

// Digits as a whole number over a power of ten: one division, correctly rounded up to 15 digits.
double value_of(std::string_view digits) {
    std::uint64_t whole = 0;
    double scale = 1;
    int used = 0;
    bool after_point = false;
    for (const char c : digits) {
        if (c == '.') {
            after_point = true;
            continue;
        }
        if (used == most_digits) break;
        whole = whole * 10 + static_cast<std::uint64_t>(c - '0');
        used += whole > 0 ? 1 : 0;
        scale *= after_point ? 10.0 : 1.0;
    }
    return static_cast<double>(whole) / scale;
}

std::size_t number_end(std::string_view plain, std::size_t from) {
    std::size_t end = from;
    bool point = false;
    while (end < plain.size() && (is_digit(plain[end]) || (plain[end] == '.' && !point))) {
        point = point || plain[end] == '.';
        ++end;
    }
    return end;
}

bool number_starts(std::string_view plain, std::size_t at) {
    if (is_digit(plain[at])) return true;
    return plain[at] == '.' && at + 1 < plain.size() && is_digit(plain[at + 1]);
}

Token number_token(std::string_view digits) {
    const std::size_t point = digits.find('.');
    const std::size_t whole = point == std::string_view::npos ? digits.size() : point;
    return {Kind::Number, std::string(digits), value_of(digits), static_cast<int>(whole)};
}

// The token that starts at `at`, which is moved past it.
Token next_token(std::string_view plain, std::size_t& at) {
    const std::size_t from = at;
    if (number_starts(plain, at)) {
        at = number_end(plain, at);
        return number_token(plain.substr(from, at - from));
    }
    if (is_letter(plain[at])) {
        while (at < plain.size() && is_letter(plain[at])) ++at;
        Token word{Kind::Word, std::string(plain.substr(from, at - from)), 0, 0};
        if (at < plain.size() && plain[at] == '.' && !number_starts(plain, at)) ++at;
        return word;
    }
    at += plain.substr(at, 2) == "+-" ? 2 : 1;
    return {Kind::Sign, std::string(plain.substr(from, at - from)), 0, 0};
}

Finding comma_finding(std::string_view text) {
    return bad_number(text, "has a comma, which may mean a decimal point or thousands",
                      "write the decimal point, and no mark between thousands: 1.25, 1250");
}

}  // namespace

const Token& Cursor::peek(std::size_t ahead) const {
    const std::size_t last = tokens_.size() - 1;
    return tokens_[position_ + ahead < last ? position_ + ahead : last];
}

bool Cursor::next_is(std::string_view sign_or_word, std::size_t ahead) const {
    const Token& token = peek(ahead);
    return (token.kind == Kind::Sign || token.kind == Kind::Word) && token.text == sign_or_word;
}

bool Cursor::take(std::string_view sign_or_word) {
    if (!next_is(sign_or_word)) return false;
    advance();
    return true;
}

bool Cursor::take_any(std::initializer_list<std::string_view> signs_or_words) {
    for (const std::string_view each : signs_or_words) {
        if (take(each)) return true;
    }
    return false;
}

int Cursor::sign() {
    if (take("-")) return -1;
    return take("+") ? 1 : 0;
}

std::optional<double> Cursor::fraction() {
    if (!is_number(0) || !next_is("/", 1) || !is_number(2)) return std::nullopt;
    const double above = peek(0).value;
    const double below = peek(2).value;
    if (below == 0) return std::nullopt;
    position_ += 3;
    return above / below;
}

std::optional<double> Cursor::quantity() {
    if (!is_number(0)) return std::nullopt;
    if (next_is("/", 1) && is_number(2)) return fraction();
    const Token whole = peek();
    advance();
    const bool mixed = is_number(0) && next_is("/", 1) && is_number(2) && whole.is_whole();
    if (!mixed || peek(0).value >= peek(2).value) return whole.value;
    return whole.value + *fraction();
}

Result<Cursor> scan(std::string_view text) {
    if (text.size() > longest_text) return bad_number(text, "is too long", "write the figure alone");
    const std::string plain = evened(text);
    std::vector<Token> tokens;
    for (std::size_t at = 0; at < plain.size();) {
        if (is_space(plain[at])) {
            ++at;
            continue;
        }
        if (plain[at] == ',') return comma_finding(text);
        tokens.push_back(next_token(plain, at));
        if (tokens.back().whole > most_whole_digits) {
            return bad_number(text, "is larger than any length or gradient", "check the digits");
        }
    }
    if (tokens.empty()) {
        return bad_number(text, "holds no figure", std::string(catalogue(Code::BadNumber).cure));
    }
    tokens.push_back({});
    return Cursor(std::move(tokens));
}

std::string quoted(std::string_view text) {
    constexpr std::size_t most = 40;
    std::size_t size = text.size();
    if (size > most) {
        size = most;
        // Never inside a UTF-8 sequence.
        while (size > 0 && (static_cast<unsigned char>(text[size]) & 0xC0U) == 0x80U) --size;
    }
    return "\"" + std::string(text.substr(0, size)) + (size < text.size() ? "...\"" : "\"");
}

Finding bad_number(std::string_view text, std::string_view what, std::string cure) {
    return finding(Code::BadNumber, {}, quoted(text) + " " + std::string(what), std::move(cure));
}

}  // namespace fallwright
