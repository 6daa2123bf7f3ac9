// SheetColumns: which column of the sheet holds what, and in which unit.
//
// A row is the header where at least two cells are names of columns and one of them is a sight (BS, IS, FS,
// or Staff). Units stand in the names, "BS (mm)", "RL [ft]", "Dist m", "FS/m", or in a row of units right
// below. Without a unit of their own sights, rises and falls take that of a sight that has one, else the
// sheet's unit by the options; all other columns metres or feet. Feet: where the options say feet or inches,
// or say nothing, some column names feet or inches and none a metric unit.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/text/column_name.h"
#include "exchange/text/csv_rows.h"
#include "exchange/text/length_unit.h"
#include "exchange/text/sheet_findings.h"
#include "exchange/text/sheet_words.h"

namespace fallwright::text {

class SheetColumns {
  public:
    explicit SheetColumns(const CsvRow& header);

    bool is_header() const;
    // How many cells are names of columns; to compare readings of one header with different separators.
    std::size_t recognised() const;
    // Whether `row` repeats the names, as at the head of each printed page.
    bool repeated_by(const CsvRow& row) const;

    // Takes a row of units; false where `row` is none.
    bool take_units(const CsvRow& row, SheetFindings& findings);
    // Names that mean the same, columns that are missing, units; to be called once, before the rest.
    void settle(const CsvOptions& options, SheetFindings& findings);

    const std::vector<SheetColumn>& all() const { return columns_; }
    bool has(Column column) const { return at(column) >= 0; }
    // -1 where there is none. The first one of several remarks.
    int at(Column column) const { return places_[static_cast<std::size_t>(column)]; }
    LengthUnit unit(Column column) const;
    Spot spot(std::size_t row, int column) const;
    // A sight's column, Staff where the sheet has one column of readings.
    Spot spot(std::size_t row, Column column) const;
    std::size_t header_row() const { return header_row_; }

    // Where points are named: Point, Station, Chainage, Number or, without these, Remark.
    Column point_column() const { return point_column_; }

  private:
    void index();
    void report_twice(SheetFindings& findings);
    void report_missing(SheetFindings& findings) const;
    void report_unused(SheetFindings& findings) const;
    void prefer_sight_columns();
    void settle_point();
    void settle_units(const CsvOptions& options, SheetFindings& findings);
    LengthUnit unit_of_sights(SheetFindings& findings) const;

    std::size_t header_row_ = 0;
    std::vector<SheetColumn> columns_;
    std::array<int, static_cast<std::size_t>(Column::Unknown) + 1> places_{};
    Column point_column_ = Column::Point;
};

}  // namespace fallwright::text
