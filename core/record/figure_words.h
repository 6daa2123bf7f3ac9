// figure_words: numbers as they stand on drawings. Inside record only.
//
// Levels and lengths to 1 mm (0.001 ft), differences to 0.1 mm with their sign (in feet 0.001 ft), in the
// book's unit; "" where there is none. By the printing rule (base/print.h).
#pragma once

#include <string>

#include "book/book.h"
#include "sheet/figure.h"
#include "verdict/verdict.h"

namespace fallwright::record {

// "47.305".
std::string level_words(const Book& book, double metres);
// "0.150 m", "0.492 ft"; bores and thicknesses in metres books "150 mm".
std::string size_words(const Book& book, double metres);
// "+18.1", "-0.3", "0.0": of a level against another.
std::string difference_words(const Book& book, double metres);
// "+10", "-2.5": on an axis.
std::string short_difference_words(const Book& book, double metres);
// The unit of difference_words: "mm", "ft".
std::string difference_unit(const Book& book);
std::string unit_words(const Book& book);  // "m", "ft"
// With as few decimals as it needs, three at most: a chainage or level on an axis.
std::string short_words(const Book& book, double metres);
// "1 in 150 (0.667 %)"; "level".
std::string fall_words(double ratio);

// The symbol of a deviation as judged, and its word: "HIGH", "LOW", "within", "too close to call", "" where
// nothing judges it.
sheet::Mark mark_of(const Judgement& judged, double deviation);
sheet::Ink ink_of(const Judgement& judged, double deviation);
std::string word_of(const Judgement& judged, double deviation);

}  // namespace fallwright::record
