// The words of level books: column names, sights, sums, marks of benchmarks. English, German, French,
// Spanish.
//
// Words are compared in folded form: letters and digits only, small, without accents; a sum sign reads "sum".
// "B.S." is bs, "Rückblick" ruckblick, "ΣBS" sumbs. The lists are common practice, no source.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fallwright::text {

std::string folded(std::string_view text);

// Whether `word`, not empty, is one of `words`, which are parted by single blanks.
bool one_of(std::string_view word, std::string_view words);

// What a column holds. Those before `amounts` hold lengths.
enum class Column : std::uint8_t {
    Back,
    Inter,
    Fore,
    Staff,  // one column of readings, beside Sight
    Collimation,
    Rise,
    Fall,
    RiseFall,  // one signed column
    Level,
    Known,        // a level given, or a yes beside Level
    Distance,     // of the sight, unless the figures run on like chainages
    SightLength,  // of the sight, said so
    BackLength,
    ForeLength,
    Offset,
    amounts,
    Chainage = amounts,
    Point,
    Station,  // a point's name, or a chainage
    Number,   // a running number; the point's name where there is no better column
    Sight,
    Remark,
    Aside,  // recognised, not used: results worked out from the sights with corrections
    Unknown
};

Column column_named(std::string_view folded_name);

enum class SightWord : std::uint8_t { None, Back, Inter, Fore };
SightWord sight_word(std::string_view text);

// What the label of a row at the foot of a page means.
enum class FootWord : std::uint8_t {
    None,
    Sum,    // sums of the columns, also carried forward
    Check,  // sums, or the difference of two
    Aside   // misclosure, allowed, ...: nothing to compare
};
FootWord foot_word(std::string_view text);

// Names that every book uses again and again for different change points: CP, TP, WP, ...
bool names_any_change_point(std::string_view text);

// Single words of running text.
std::vector<std::string_view> words_of(std::string_view text);
bool means_known(std::string_view folded_word);
bool means_not(std::string_view folded_word);
bool means_yes(std::string_view folded_word);
bool means_no(std::string_view folded_word);
bool means_level(std::string_view folded_word);
bool names_benchmark(std::string_view folded_word);
bool means_inverted(std::string_view folded_word);

}  // namespace fallwright::text
