// sheet: one sheet of a workbook, written row by row from the top. Inside workbook only.
//
// A row is filled in any order of columns, then next_row() leaves it for good: rows are handed on at once, so
// that a sheet of a million rows needs no memory for them.
#pragma once

#include <xlsxwriter.h>

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

namespace fallwright::workbook {

enum class Style : std::uint8_t { Plain, Strong, StrongRight, Ruled, Head, HeadRight, Wrapped };

// Of a column; numbers stand to the right, and so does their head.
struct Head {
    std::string text;
    bool number = true;
};

// Formats of cells, each made once.
class Formats {
  public:
    explicit Formats(lxw_workbook* book) : book_(book) {}
    lxw_format* text(Style style) { return made(style, ""); }
    // `shown`: a number format, such as "0.000".
    lxw_format* number(Style style, const std::string& shown) { return made(style, shown); }

  private:
    lxw_format* made(Style style, const std::string& shown);
    lxw_workbook* book_;
    std::map<std::pair<Style, std::string>, lxw_format*> formats_;
};

// Not longer than that, cut between characters and ended with "..." where it was.
std::string cut(std::string_view text, std::size_t bytes);
// "0.000" for three places.
std::string shown_with(int places);
// "H5": column and row counted from 0.
std::string cell_name(std::size_t column, std::size_t row);

class Sheet {
  public:
    // heads: of the columns, the first row; it is frozen, and repeated on every printed page.
    Sheet(lxw_workbook* book, Formats& formats, const char* name, const std::vector<Head>& heads);

    std::size_t row() const { return row_; }
    void next_row() { ++row_; }
    // Rows that found no room.
    std::size_t left_out() const { return row_ > LXW_ROW_MAX ? row_ - LXW_ROW_MAX : 0; }

    void text(std::size_t column, std::string_view text, Style style = Style::Plain);
    // Over as many lines as it takes in a column of that width (characters); the row grows with it. Before
    // any other cell of the row.
    void paragraph(std::size_t column, std::string_view text, std::size_t width);
    // Not finite: the cell stays empty.
    void number(std::size_t column, double value, const std::string& shown, Style style = Style::Plain);
    // With its value as we have it, for programs that show without calculating.
    void formula(std::size_t column, const std::string& formula, double value, const std::string& shown,
                 Style style = Style::Plain);
    void formula(std::size_t column, const std::string& formula, const std::string& value,
                 const std::string& shown, Style style = Style::Plain);
    // Empty cells of the row up to `columns` get the style.
    void blank(std::size_t column, Style style);

    // Arrows to choose rows by, on the heads; only for sheets that are one table.
    void choose_rows();
    // Widths by what was written, paper (Letter for feet) and heads of pages. Last call.
    void finish(const std::string& title, const std::string& foot, bool letter);

  private:
    bool full() const { return row_ >= LXW_ROW_MAX; }
    void widen(std::size_t column, std::size_t characters);
    lxw_row_t at() const { return static_cast<lxw_row_t>(row_); }

    lxw_worksheet* sheet_;
    Formats& formats_;
    std::vector<std::size_t> widths_;  // characters
    std::size_t row_ = 0;
};

}  // namespace fallwright::workbook
