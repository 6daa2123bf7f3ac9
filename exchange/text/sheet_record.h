// Records: the rows below the header, read cell by cell, not yet understood as a run of levels.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/text/csv_rows.h"
#include "exchange/text/decimal_mark.h"
#include "exchange/text/sheet_columns.h"
#include "exchange/text/sheet_findings.h"
#include "exchange/text/sheet_number.h"

namespace fallwright::text {

struct Record {
    enum class Kind : std::uint8_t {
        Sights,   // at least one of back, inter, fore
        Figures,  // figures without a sight: a benchmark listed, a level alone
        Heading,  // text only
        Sum,      // sums of columns
        Check,    // sums or differences of sums
        Aside     // misclosure, allowed, ...: of no use here
    };
    Kind kind = Kind::Heading;
    std::size_t row = 0;
    std::string point;  // as named, on one line; without a line also a chainage
    bool named_by_remark = false;
    std::string remark;
    std::array<Amount, static_cast<std::size_t>(Column::amounts)> amounts{};
    Amount chainage;                // only with a line in the options
    Amount known_level;             // the row says that its point is a benchmark of this level
    bool known_from_level = false;  // that level stands in the column of levels

    const Amount& operator[](Column column) const { return amounts[static_cast<std::size_t>(column)]; }
    Amount& operator[](Column column) { return amounts[static_cast<std::size_t>(column)]; }
};

// What the reading of rows needs of the sheet.
struct SheetForm {
    const CsvOptions& options;
    const SheetColumns& columns;
    DecimalMark decimal_mark;
};

// The row as a record. What is wrong goes to the findings, each cell of its own.
Record read_record(const CsvRow& row, const SheetForm& form, SheetFindings& findings);

// The largest whole number, in the unit of the column, that a cell can hold: a staff is 10 m long, ground is
// below 9000 m, and 0 for levels in metres or feet, which nobody books without decimals.
double largest_in(const SheetColumns& columns, Column column);

// Longer readings are not of this world: 10 m, as the book has it for a staff of unknown length.
constexpr Decimal longest_staff = Decimal::ticks(100000000);

}  // namespace fallwright::text
