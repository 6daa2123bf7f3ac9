// words: chainages, lengths and stretches in sentences, in the book's unit. Inside setout only.
#pragma once

#include <string>

#include "base/print.h"
#include "book/book.h"

namespace fallwright {

// "24.000"
inline std::string chainage_words(const Book& book, double ch) {
    return fixed(book.in_unit(ch), 3);
}

// "1.312 m"
inline std::string length_words(const Book& book, double metres) {
    return fixed(book.in_unit(metres), 3) + (book.unit == Unit::Foot ? " ft" : " m");
}

// "at chainage 24.000", "from chainage 24.000 to 40.000"
inline std::string stretch_words(const Book& book, double from, double to) {
    if (from == to) return "at chainage " + chainage_words(book, from);
    return "from chainage " + chainage_words(book, from) + " to " + chainage_words(book, to);
}

}  // namespace fallwright
