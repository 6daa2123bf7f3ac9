#include "exchange/text/known_level.h"

#include <algorithm>
#include <string>
#include <vector>

#include "exchange/text/sheet_words.h"

namespace fallwright::text {

namespace {

// What running text says about a level.
struct Statement {
    bool known = false;
    bool benchmark = false;
    bool level_word = false;
    std::vector<Amount> figures;
    Amount after_level_word;
};

// Only figures with decimals: BM 2 and 2024 are no levels.
Amount figure_in(std::string_view word, DecimalMark mark, LengthUnit unit) {
    while (!word.empty() && (word.back() == ',' || word.back() == '.')) word.remove_suffix(1);
    const ParsedAmount parsed = parse_amount(word, mark, unit);
    return parsed.fault == NumberFault::None && parsed.amount.places > 0 ? parsed.amount : Amount();
}

Statement statement_of(std::string_view text, DecimalMark mark, LengthUnit unit) {
    Statement said;
    std::string before;
    for (const std::string_view word : words_of(text)) {
        const std::string key = folded(word);
        said.known = said.known || (means_known(key) && !means_not(before));
        said.benchmark = said.benchmark || names_benchmark(key);
        if (const Amount figure = figure_in(word, mark, unit)) {
            said.figures.push_back(figure);
            if (means_level(before)) said.after_level_word = figure;
        }
        said.level_word = said.level_word || means_level(key);
        before = key;
    }
    return said;
}

void read_level_cell(const LevelCells& cells, KnownLevel& level) {
    if (stands_for_nothing(cells.level)) return;
    const ParsedAmount parsed = parse_amount(cells.level, cells.decimal_mark, cells.level_unit);
    level.booked = parsed.amount;
    level.level_fault = parsed.fault;
    if (parsed.fault != NumberFault::NotANumber) return;
    const Statement said = statement_of(cells.level, cells.decimal_mark, cells.level_unit);
    if (said.figures.size() != 1 || !(said.known || said.benchmark)) return;
    level.level_fault = NumberFault::None;
    level.booked = said.figures.front();
    level.known = level.booked;
}

void read_known_cell(const LevelCells& cells, KnownLevel& level) {
    if (stands_for_nothing(cells.known)) return;
    const std::string word = folded(cells.known);
    if (means_no(word)) return;
    if (means_yes(word)) {
        level.known = level.booked;
        level.known_without_level = !level.booked && level.level_fault == NumberFault::None;
        return;
    }
    const ParsedAmount parsed = parse_amount(cells.known, cells.decimal_mark, cells.known_unit);
    level.known = parsed.amount;
    level.known_fault = parsed.fault;
}

void read_remark(const LevelCells& cells, KnownLevel& level) {
    const Statement said = statement_of(cells.remark, cells.decimal_mark, cells.level_unit);
    const bool benchmark = said.benchmark || names_benchmark(folded(cells.point));
    if (said.known) {
        const bool one = said.figures.size() == 1;
        level.known = said.after_level_word ? said.after_level_word
                      : one                 ? said.figures.front()
                                            : level.booked;
    } else if (benchmark && said.level_word) {
        level.known = said.after_level_word;
    }
}

}  // namespace

KnownLevel read_known_level(const LevelCells& cells) {
    KnownLevel level;
    read_level_cell(cells, level);
    if (!level.known) read_known_cell(cells, level);
    if (!level.known) read_remark(cells, level);
    level.known_is_booked = level.known && level.booked && level.known.length() == level.booked.length();
    return level;
}

}  // namespace fallwright::text
