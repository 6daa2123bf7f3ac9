// words: chainages, lengths and stretches of a line in sentences, always in the book's unit.
//
// For every sentence about a place along a line, so that all of them say it alike.
// To three decimals, a millimetre or a thousandth of a foot, by the printing rule (base/print.h): what a
// person reads off a staff is no finer.
#pragma once

#include <string>

#include "base/print.h"
#include "book/book.h"

namespace fallwright {

// "24.000"; without a unit, as chainages are said.
inline std::string chainage_words(const Book& book, double ch) {
    return fixed(book.in_unit(ch), 3);
}

// "1.312 m", "4.304 ft".
inline std::string length_words(const Book& book, double metres) {
    return fixed(book.in_unit(metres), 3) + (book.unit == Unit::Foot ? " ft" : " m");
}

// "at chainage 24.000", or "from chainage 24.000 to 40.000"; one chainage where both are the same.
inline std::string stretch_words(const Book& book, double from, double to) {
    if (from == to) return "at chainage " + chainage_words(book, from);
    return "from chainage " + chainage_words(book, from) + " to " + chainage_words(book, to);
}

}  // namespace fallwright
