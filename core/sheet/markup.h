// markup: text that comes from books and people, made safe for paper, HTML and SVG.
//
// Nobody's text may end an element, hide from the reader or stop a library: what is no character is replaced
// by U+FFFD, which everybody sees.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fallwright::sheet {

// The character that begins at byte `at`, which moves past it. What is no UTF-8 (overlong, surrogates, torn,
// beyond U+10FFFF) is U+FFFD and moves by one byte.
char32_t next_character(std::string_view text, std::size_t& at);

void append_character(std::string& out, char32_t c);  // as UTF-8

// For element content and for attributes in double quotes, in HTML and XML alike. Line breaks and tabs become
// spaces; what XML 1.0 forbids, and broken UTF-8, become U+FFFD.
void append_escaped(std::string& out, std::string_view text);
// The same characters, unescaped: valid UTF-8 on one line.
void append_plain(std::string& out, std::string_view text);

// ' name="value"'
void attribute(std::string& out, std::string_view name, std::string_view value);
// At most three places, by the printing rule.
void attribute(std::string& out, std::string_view name, double value);

}  // namespace fallwright::sheet
