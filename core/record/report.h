// report: the signed record of a job as one document, from an evaluation; and each of its drawings alone.
//
// Everything comes from the evaluation: this stage chooses, words and draws, it computes no level. What was
// left out or could not be told is said in the report itself. Cautions cannot be switched off.
//
// Errors: none of its own. A book without anything to report gives a report that says so.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "book/change.h"
#include "evaluation/evaluation.h"
#include "sheet/document.h"

namespace fallwright::record {

enum class Length : std::uint8_t {
    OnePage,  // what was asked, what is there, what is out, who signs: one sheet
    Full
};

struct Wanted {
    Length length = Length::Full;
    sheet::Paper paper = sheet::Paper::A4;
    std::string fingerprint;          // SHA-256 of the book's bytes, "" where they are not at hand
    std::string book_name;            // the file's name, "" for none
    std::string version;              // of this program
    std::string made_at;              // RFC 3339 or ""; the core has no clock
    std::vector<BookChange> changes;  // of the book's text, which the evaluation need not have any more
};

// The book's title, else the file's name, else "Levels".
std::string title_of(const Evaluation& evaluation, const Wanted& wanted);

// Lengths and levels in the book's unit. The evaluation must have sought suspects (Seek::Suspects).
sheet::Document report_of(const Evaluation& evaluation, const Wanted& wanted);

}  // namespace fallwright::record
