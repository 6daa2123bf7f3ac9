// Which mark, point or comma, parts decimals in a sheet: the cells vote.
#pragma once

#include <cstddef>
#include <string_view>

namespace fallwright::text {

// What parts decimals. `stated`: a person said so, and 1,234 is no longer ambiguous.
struct DecimalMark {
    char mark = '.';  // '.' or ','; 0: the sheet does not tell
    bool stated = false;
};

// One vote for each numeric cell. Decisive are: 1,5 (not three digits behind), 0,953 (no group begins with
// 0), 1234,567 (too many in front), 1.234,56 (the last one parts decimals), 1.234.567 (the other one does),
// and 1,717 where 1717 would be more than can be (`largest`, 0: no whole number can be). All
// else is weak: with nothing decisive a semicolon between the cells speaks for the decimal comma, a comma for
// the point.
class MarkVote {
  public:
    void add(std::string_view cell, double largest);

    // '.' or ','; 0 where numbers may be read both ways.
    char mark(char separator) const;

  private:
    std::size_t point_ = 0;
    std::size_t comma_ = 0;
    std::size_t weak_point_ = 0;
    std::size_t weak_comma_ = 0;
};

}  // namespace fallwright::text
