#include "setout/cover_check.h"

#include <cmath>

#include "setout/stations.h"
#include "setout/words.h"

namespace fallwright {

namespace {

// How far a pipe stands out of the ground; by its invert where its crown is not known.
double standing_out(const SetoutRow& row) {
    return std::isnan(row.cover) ? -row.dig : -row.cover;
}

}  // namespace

void check_cover(const Book& book, const SetoutTable& table, Findings& findings) {
    if (!carries_pipes(book.lines[table.line])) return;
    double from = NAN, to = NAN;
    const SetoutRow* worst = nullptr;
    for (const SetoutRow& row : table.rows) {
        if (!(standing_out(row) > 0)) continue;
        if (worst == nullptr) from = row.ch;
        to = row.ch;
        if (worst == nullptr || standing_out(row) > standing_out(*worst)) worst = &row;
    }
    if (worst == nullptr) return;
    findings.push_back(finding(
        Code::SetoutNoCover, {book.name(book.lines[table.line].name)},
        stretch_words(book, from, to) + " the " + (std::isnan(worst->cover) ? "invert" : "crown") +
            " of the pipe stands up to " + length_words(book, standing_out(*worst)) + " above the ground"));
}

}  // namespace fallwright
