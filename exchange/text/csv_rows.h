// CsvRows: text of separated values, row by row, as RFC 4180 has it and as spreadsheets really write it.
//
// A row ends with LF, CR LF or CR. A cell that begins with a quote ends with the next quote that is not
// doubled; separators and line ends in between belong to it, and what follows the closing quote up to the
// next separator is added to it. A quote elsewhere is a character like any other. White space around a cell
// goes (also no-break space). Empty cells at the end of a row go. A first line "sep=;" names the separator
// and is no row, as in spreadsheets.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/text/level_csv.h"
#include "exchange/text/sheet_findings.h"

namespace fallwright::text {

struct CsvRow {
    std::size_t number = 0;  // as the spreadsheet counts: from 1, blank rows too
    std::vector<std::string> cells;

    // Empty text beyond the last cell.
    std::string_view cell(int column) const;
};

class CsvRows {
  public:
    CsvRows(std::string_view text, char separator, const CsvLimits& limits);

    // The next row, blank or not; false at the end and where nothing more can be read.
    bool next(CsvRow& row);

    // Why reading stopped before the end; nothing added where it did not. What is wrong is a quote that is
    // never closed (import-quote) or a limit passed (import-too-large).
    void report(SheetFindings& findings) const;

  private:
    enum class Trouble : unsigned char { None, OpenQuote, LongCell, ManyColumns, ManyRows };

    void read_row(CsvRow& row);
    void read_cell(CsvRow& row);
    // False where the quote is never closed.
    bool read_quoted(std::string& cell);
    void append(std::string& cell, std::size_t begin, std::size_t end) const;
    bool at_line_end() const;
    void pass_line_end();
    void stop(Trouble trouble, const CsvRow& row);

    std::string_view text_;
    char separator_;
    CsvLimits limits_;
    std::size_t at_ = 0;
    std::size_t rows_ = 0;
    std::size_t used_ = 0;  // cells of the row being read
    Trouble trouble_ = Trouble::None;
    Spot where_;
};

// The separator named by a first line "sep=;", 0 without one.
char separator_named(std::string_view text);

// Without white space at both ends: blanks, tabs, line ends, no-break and narrow spaces.
std::string_view trimmed_text(std::string_view text);

// Trimmed, with every run of blanks, line ends and control characters as one blank.
std::string one_line(std::string_view text);

}  // namespace fallwright::text
