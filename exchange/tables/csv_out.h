// CsvOut: comma-separated values by RFC 4180, safe to open in a spreadsheet.
//
// Rows end with CR LF, the first one names the columns, every row has as many cells. A cell with a comma, a
// quote or a line end stands in quotes, quotes in it doubled. Numbers have a decimal point and no unit; the
// unit stands in the name of the column.
//
// A spreadsheet runs a cell of text that begins with = + - @, a tab or a carriage return. Such a text is
// written with an apostrophe before it, which shows it as text; import takes the apostrophe off again. A text
// that begins with an apostrophe of its own before one of these gets another one, so nothing is lost. Numbers
// stay numbers, negative ones too: a cell is a number because its column holds numbers, never by its looks.
//
// A file with letters beyond ASCII begins with the mark of UTF-8, without which spreadsheets guess.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::tables {

class CsvOut {
  public:
    explicit CsvOut(const std::vector<std::string>& columns);

    // Cells of the next row, in the order of the columns; `end` ends it.
    CsvOut& text(std::string_view value);
    // At most `places` decimals; nothing where it is not finite.
    CsvOut& number(double value, int places);
    // A number written by the printing rule already; empty for nothing.
    CsvOut& written(std::string_view number);
    CsvOut& end();

    std::string take();

  private:
    void separate();

    std::string out_;
    std::size_t columns_ = 0, cells_ = 0;
};

// A text as a cell that no spreadsheet runs, and back.
std::string safe_cell(std::string_view text);
std::string_view without_guard(std::string_view cell);

}  // namespace fallwright::tables
