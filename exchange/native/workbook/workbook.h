// workbook: a book as a spreadsheet (XLSX, Office Open XML), for whoever checks it in one or works on in one.
//
// The sheets:
//   Book        title, datum, unit, what the sheets are, findings and cautions
//   Level book  the booked pages under each other. What was read, the first level and a sloped plane's
//               collimation are typed numbers; height of collimation, rise, fall, levels, sums, check and
//               misclosures are formulas that work them out again, so that another spreadsheet proves them
//   Levels, Stations, Falls, Readings
//               what the adjustment gives: typed numbers, as rounded for results (base/print.h)
// Lengths in the book's unit, which stands in the heads of columns. Heads are frozen and repeated in print.
//
// Text is always a text cell: a name such as "=1+1" stays a name. Text too long for a cell is cut with "...";
// rows beyond the 1,048,576 of a sheet are left out, and the sheet Book says how many.
//
// Same book, same bytes: the file's date is that of the book's last entry.
// Errors: bad-file where the file cannot be written; then nothing is left at `path` but what was there.
#pragma once

#include <optional>
#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::workbook {

// What cannot be told from an evaluation.
struct Wanted {
    std::string book_name;    // the file's name, "" for none
    std::string fingerprint;  // SHA-256 of the book's bytes, "" where they are not at hand
    std::string version;      // of this program
};

// Writes beside `path` first, then takes its place. The evaluation's findings and cautions go along.
std::optional<Finding> write(const Evaluation& evaluation, const Wanted& wanted, const std::string& path);

}  // namespace fallwright::workbook
