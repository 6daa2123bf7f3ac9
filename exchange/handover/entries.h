// entries: what another program handed over -> entries of a book, all of them or none.
//
//   points     a place; a level that is held becomes a benchmark held fixed, a measured one a benchmark with
//              its uncertainty, a wanted one nothing: a level to be set out is no level that is known, and a
//              book wants levels along lines
//   lines      a line with plan, profile, pipes and chambers
//   surfaces   their spots as points, and a surface of them; where the triangles of the file are not those
//              the book would make, breaklines hold them
//
// In a book that is there already nothing is given a second meaning: the same place or level again is passed
// over with a note, another one refuses everything (import-taken). A measured level of a point that the book
// speaks of is passed over too, since it may be the book's own answer coming back.
//
// Pure and total. Lengths are written in the book's unit to 1e-7 m (1e-8 ft), so what came with fewer digits
// comes through as it was. With an error finding there are no lines.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "exchange/handover/handover.h"

namespace fallwright::handover {

struct Intake {
    std::string source;        // the file's name, for remarks and sources
    std::string title, datum;  // of a new book; empty: the file's
    std::string unit;          // of a new book: "m", "ft"; empty: the file's
    std::string use;           // of lines that say none
    double sd = 0.010;         // of measured levels that say none, metres
    bool sd_given = false;     // else a note says that it was assumed
};

struct Prepared {
    // Complete JSON entries in the order to append them, without id, at and by.
    std::vector<std::string> lines;
    Findings findings;
};

// into: the book they go to; nullptr for a new one.
Prepared entries_of(const Handover& from, const Book* into, const Intake& intake);

}  // namespace fallwright::handover
