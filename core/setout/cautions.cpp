#include "setout/cautions.h"

#include <algorithm>
#include <cmath>

#include "setout/stations.h"
#include "setout/words.h"

namespace fallwright {

namespace {

constexpr double thumb_metres = 1.2;
constexpr double thumb_feet = 5 * metres_per_foot;

// Rows of a line that meet a condition, as far as a sentence names them.
struct Stretch {
    double from = NAN, to = NAN;
    const SetoutRow* worst = nullptr;
};

template <class Size>
Stretch stretch_of(const std::vector<SetoutRow>& rows, double above, Size size) {
    Stretch stretch;
    for (const SetoutRow& row : rows) {
        if (!(size(row) > above)) continue;
        if (stretch.worst == nullptr) stretch.from = row.ch;
        stretch.to = row.ch;
        if (stretch.worst == nullptr || size(row) > size(*stretch.worst)) stretch.worst = &row;
    }
    return stretch;
}

// To the trench bottom; where bedding is not known to where one would dig.
double depth(const SetoutRow& row) {
    return std::isnan(row.trench_depth) ? row.dig : row.trench_depth;
}

void caution_trench(const Book& book, const SetoutTable& table, Findings& findings) {
    const bool feet = book.unit == Unit::Foot;
    const double thumb = feet ? thumb_feet : thumb_metres;
    const Stretch any = stretch_of(table.rows, 0, depth);
    if (any.worst == nullptr) return;
    const Stretch deep = stretch_of(table.rows, thumb, depth);
    const std::string limit = length_words(book, thumb) +
                              (feet ? " (29 CFR 1926.652)" : " (rule of thumb, HSE leaflet on excavations)");
    const std::string deeper =
        deep.worst == nullptr ? "" : ", deeper than " + limit + " " + stretch_words(book, deep.from, deep.to);
    const double sd = std::isnan(any.worst->trench_depth) ? any.worst->dig_sd : any.worst->trench_depth_sd;
    findings.push_back(finding(Code::TrenchDepth, {book.name(book.lines[table.line].name)},
                               "the trench is up to " + fixed(book.in_unit(depth(*any.worst)), 3) +
                                   " \u00b1 " + length_words(book, sd) + " deep at chainage " +
                                   chainage_words(book, any.worst->ch) + deeper));
}

// How far a pipe stands out of the ground; by its invert where its crown is not known.
double standing_out(const SetoutRow& row) {
    return std::isnan(row.cover) ? -row.dig : -row.cover;
}

void caution_cover(const Book& book, const SetoutTable& table, Findings& findings) {
    const Stretch out = stretch_of(table.rows, 0, standing_out);
    if (out.worst == nullptr) return;
    const bool crown = !std::isnan(out.worst->cover);
    findings.push_back(finding(Code::SetoutNoCover, {book.name(book.lines[table.line].name)},
                               stretch_words(book, out.from, out.to) + " the " +
                                   (crown ? "crown" : "invert") + " of the pipe stands up to " +
                                   length_words(book, standing_out(*out.worst)) + " above the ground"));
}

}  // namespace

void caution(const Book& book, const SetoutTable& table, Findings& findings) {
    if (!carries_pipes(book.lines[table.line])) return;
    caution_trench(book, table, findings);
    caution_cover(book, table, findings);
}

}  // namespace fallwright
