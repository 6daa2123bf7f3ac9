// level_csv: a level book as people keep it in a spreadsheet -> lines of a book (docs/formats: the book).
//
// Pure and total: any bytes give an answer, in time and memory that grow with their number; the limits of
// CsvOptions hold them down. What is booked is imported, the sights; booked results (height of collimation,
// rises, falls, levels, sums) are compared with what the sights give in exact decimals, and a difference of
// more than half the last digit booked is a warning. Nothing is half imported: with an error finding there
// are no lines. Column names, units and the meaning of rows: docs/methods/import-csv.md.
//
// A finding about a place in the sheet has about = {"row 7", "column C, FS"}: rows as the spreadsheet counts
// them, from 1, blank ones too; the column with its letter and its name.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"

namespace fallwright::text {

// Beyond one of these the sheet is refused (import-too-large).
struct CsvLimits {
    std::size_t bytes = std::size_t{64} << 20;
    std::size_t rows = 1000000;
    std::size_t columns = 256;
    std::size_t cell_bytes = 8192;  // so that a cell of control characters still fits an entry of 64 KiB
    // Of each code so many findings are listed; one more says how many were not.
    std::size_t findings_per_code = 100;
};

struct CsvOptions {
    // The book. An existing book: new_book false, and unit that of the book.
    bool new_book = true;
    std::string title;
    std::string datum;
    std::string unit;  // "m" or "ft"; empty: ft where the sights are in feet or inches, else m

    // The sheet.
    std::string sheet_name;  // named in sources and remarks: "lane.csv"
    std::string date;        // day of the levelling, any text; goes into the opening remark
    std::string sheet_unit;  // of columns that name none: m, mm, cm, dm, ft, in; empty: as the other columns
    char separator = 0;      // ',', ';', '\t' or '|'; 0: detected
    char decimal_mark = 0;   // '.' or ','; 0: detected

    // Set-ups are called prefix + 1, 2, ...; names in use are passed over.
    std::string setup_prefix = "S";
    std::vector<std::string> setups_in_use;
    // Points of the existing book: a new change point called CP does not become one of these.
    std::vector<std::string> points_in_use;

    std::string instrument = "level";
    std::string instrument_type = "optical-level";
    bool instrument_in_book = false;

    // With a line, rows with a chainage are read on it: line + ch (+ off) + what. Without, the chainage's
    // text is the point's name.
    std::string line;
    std::string what = "ground";
    bool line_in_book = false;

    CsvLimits limits;
};

struct ImportedBook {
    // Complete JSON entries in the order to append them, without id, at and by: the tool stamps those.
    std::vector<std::string> lines;
    Findings findings;
};

ImportedBook import_level_csv(std::string_view bytes, const CsvOptions& options);

}  // namespace fallwright::text
