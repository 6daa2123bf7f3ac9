// Words of a case file: how a line is cut up, and how a word becomes a JSON value or a printed number.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace fallwright::cases {

// What is wrong with a case file itself (not with the product): thrown with the sentence, the caller adds
// file and line.
struct Complaint : std::runtime_error {
    using std::runtime_error::runtime_error;
};

std::string_view trimmed_text(std::string_view text);
// Between double quotes, quotes and backslashes escaped.
std::string in_quotes(std::string_view text);

// Cut at blanks, except inside double quotes and inside [ ] or { }. Quotes stay part of the word.
std::vector<std::string> split_words(std::string_view line);

// True where the word is a number as JSON writes it: -1.25, 3e-5.
bool is_number(std::string_view word);

// A word as JSON text. Numbers stay as typed, digit by digit; true, false, null and quoted text are
// themselves; inside brackets bare words are quoted: {e: 0, towards: D1}; any other word is text.
std::string word_as_json(std::string_view word);

// A printed figure and half its last digit: "101.13" is 101.13 and 0.005, "2e-5" is 2e-5 and 0.5e-5.
struct Printed {
    double value = 0;
    double half_digit = 0;
};
Printed printed_number(std::string_view word);

// What a figure followed by `unit` is multiplied by to become the product's: mm, mm/m and permille 0.001, %
// 0.01; 0 where the word is no unit.
double unit_factor(std::string_view unit);

}  // namespace fallwright::cases
