// Text as a person types it, cut into numbers, words and signs. Used inside quantity only.
//
// First the writing is evened out: capitals, the typographic minus, dashes, primes, quotes, fractions,
// permille, degree and plus-minus signs, spaces of every width. Then: a number is digits with at most one
// decimal point; a word is letters (a full stop after it is dropped: "in."); everything else is one sign a
// token, "+-" and "+/-" being one. Numbers are computed from their digits: no locale, no C library.
//
// Inside quantity only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fallwright {

struct Token {
    enum class Kind : std::uint8_t { Number, Word, Sign, End } kind = Kind::End;
    std::string text;
    double value = 0;  // of a number
    int whole = 0;     // digits before the decimal point
    bool is_whole() const { return text.find('.') == std::string::npos; }
};

// A place in the tokens. The last token is always End, and no call passes it.
class Cursor {
  public:
    explicit Cursor(std::vector<Token> tokens) : tokens_(std::move(tokens)) {}

    const Token& peek(std::size_t ahead = 0) const;
    bool at_end() const { return peek().kind == Token::Kind::End; }
    void advance() { position_ += at_end() ? 0 : 1; }
    // Takes the token if it is that sign or one of those words.
    bool take(std::string_view sign_or_word);
    bool take_any(std::initializer_list<std::string_view> signs_or_words);
    bool next_is(std::string_view sign_or_word, std::size_t ahead = 0) const;
    // -1, +1, or 0 where no sign stands.
    int sign();
    // 12.5, 3/8 or 8 3/8; nothing is taken where none stands. A denominator of 0 is none.
    std::optional<double> quantity();

  private:
    bool is_number(std::size_t ahead) const { return peek(ahead).kind == Token::Kind::Number; }
    std::optional<double> fraction();

    std::vector<Token> tokens_;
    std::size_t position_ = 0;
};

// The tokens of `text`; a finding for an empty text, a comma, or a number too large to be meant.
Result<Cursor> scan(std::string_view text);

// "as typed", cut where it is long, for findings.
std::string quoted(std::string_view text);
// Finding bad-number: the quoted text, then `what`.
Finding bad_number(std::string_view text, std::string_view what, std::string cure);

}  // namespace fallwright
