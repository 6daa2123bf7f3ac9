#include "exchange/text/sheet_columns.h"

#include <algorithm>
#include <utility>

namespace fallwright::text {

namespace {

bool is_sight(Column column) {
    return column <= Column::Staff;
}

// Share one unit: what is read on a staff, and its differences.
bool with_sights(Column column) {
    return is_sight(column) || column == Column::Rise || column == Column::Fall || column == Column::RiseFall;
}

bool holds_length(Column column) {
    return column <= Column::Chainage;
}

// The unit a cell of a units row names: "m", "(mm)", "[ft]".
std::optional<LengthUnit> unit_in_cell(std::string_view cell) {
    const std::vector<std::string_view> words = words_of(cell);
    return words.size() == 1 ? length_unit(words.front()) : std::nullopt;
}

}  // namespace

SheetColumns::SheetColumns(const CsvRow& header) : header_row_(header.number) {
    for (const std::string& cell : header.cells) columns_.push_back(read_column_name(cell));
    index();
}

void SheetColumns::index() {
    places_.fill(-1);
    for (std::size_t i = columns_.size(); i-- > 0;) {
        places_[static_cast<std::size_t>(columns_[i].holds)] = static_cast<int>(i);
    }
}

std::size_t SheetColumns::recognised() const {
    return static_cast<std::size_t>(std::count_if(
        columns_.begin(), columns_.end(), [](const SheetColumn& c) { return c.holds != Column::Unknown; }));
}

bool SheetColumns::is_header() const {
    const bool sight =
        std::any_of(columns_.begin(), columns_.end(), [](const SheetColumn& c) { return is_sight(c.holds); });
    return sight && recognised() >= 2;
}

bool SheetColumns::repeated_by(const CsvRow& row) const {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const bool same = one_line(row.cell(static_cast<int>(i))) == columns_[i].name;
        if (columns_[i].holds != Column::Unknown && !same) return false;
    }
    return true;
}

LengthUnit SheetColumns::unit(Column column) const {
    const int place = at(column);
    return place < 0 ? LengthUnit::Metre : columns_[static_cast<std::size_t>(place)].unit;
}

Spot SheetColumns::spot(std::size_t row, int column) const {
    const auto index = static_cast<std::size_t>(column);
    const bool named = column >= 0 && index < columns_.size();
    return {row, column, named ? std::string_view(columns_[index].name) : std::string_view()};
}

Spot SheetColumns::spot(std::size_t row, Column column) const {
    return spot(row, is_sight(column) && has(Column::Staff) ? at(Column::Staff) : at(column));
}

bool SheetColumns::take_units(const CsvRow& row, SheetFindings& findings) {
    bool any = false;
    for (const std::string& cell : row.cells) {
        if (!cell.empty() && !unit_in_cell(cell) && !refused_unit(cell)) return false;
        any = any || !cell.empty();
    }
    if (!any) return false;
    for (std::size_t i = 0; i < std::min(row.cells.size(), columns_.size()); ++i) {
        SheetColumn& column = columns_[i];
        const LengthUnit unit = unit_in_cell(row.cells[i]).value_or(LengthUnit::None);
        column.refused_unit = column.refused_unit || refused_unit(row.cells[i]);
        if (unit == LengthUnit::None) continue;
        if (column.unit != LengthUnit::None && column.unit != unit) {
            findings.add(Code::ImportUnit, spot(row.number, static_cast<int>(i)),
                         "the name of the column and the row of units name different units");
        }
        column.unit = unit;
    }
    return true;
}

void SheetColumns::report_twice(SheetFindings& findings) {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const Column holds = columns_[i].holds;
        const int first = at(holds);
        if (holds >= Column::Remark || holds == Column::Number || first == static_cast<int>(i)) continue;
        findings.add(Code::ImportColumn, spot(header_row_, static_cast<int>(i)),
                     quoted(columns_[i].name) + " means the same as column " + column_letters(first) + ", " +
                         quoted(columns_[static_cast<std::size_t>(first)].name),
                     "rename or remove one of the two");
    }
}

void SheetColumns::report_missing(SheetFindings& findings) const {
    const bool staff = has(Column::Staff);
    if (staff && !has(Column::Sight)) {
        findings.add(Code::ImportNoHeader, spot(header_row_, at(Column::Staff)),
                     "a column of readings without a column that says back, inter or fore",
                     "add a column Sight, or book in columns BS, IS, FS");
    } else if (!staff && !has(Column::Back)) {
        findings.add(Code::ImportNoHeader, spot(header_row_, -1), "no column for the backsights",
                     "name it BS");
    }
    if (point_column_ == Column::Unknown) {
        findings.add(Code::ImportNoHeader, spot(header_row_, -1), "no column names the points",
                     "name it Point");
    }
}

void SheetColumns::report_unused(SheetFindings& findings) const {
    std::string names;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const SheetColumn& column = columns_[i];
        const bool weak = (column.holds == Column::Station || column.holds == Column::Number ||
                           column.holds == Column::Sight) &&
                          column.holds != point_column_ &&
                          !(column.holds == Column::Sight && has(Column::Staff));
        if ((column.holds != Column::Unknown && !weak) || column.name.empty()) continue;
        names +=
            (names.empty() ? "" : ", ") + column_letters(static_cast<int>(i)) + " " + quoted(column.name);
    }
    if (names.empty()) return;
    findings.add(Code::ImportNotUsed, spot(header_row_, -1), "these columns are not used: " + names);
}

void SheetColumns::prefer_sight_columns() {
    if (!has(Column::Back)) return;
    for (SheetColumn& column : columns_) {
        if (column.holds == Column::Staff) column.holds = Column::Unknown;
    }
    index();
}

void SheetColumns::settle_point() {
    for (const Column column : {Column::Point, Column::Station, Column::Chainage, Column::Number,
                                Column::Remark, Column::Unknown}) {
        point_column_ = column;
        if (has(column)) return;
    }
    point_column_ = Column::Unknown;
}

LengthUnit SheetColumns::unit_of_sights(SheetFindings& findings) const {
    LengthUnit common = LengthUnit::None;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const SheetColumn& column = columns_[i];
        if (column.unit == LengthUnit::None || !is_sight(column.holds)) continue;
        if (common != LengthUnit::None && common != column.unit) {
            findings.add(Code::ImportUnit, spot(header_row_, static_cast<int>(i)),
                         "the columns of sights are in different units", "give all sights in one unit");
        }
        common = column.unit;
    }
    return common;
}

void SheetColumns::settle_units(const CsvOptions& options, SheetFindings& findings) {
    bool feet = false;
    bool metric = false;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const SheetColumn& column = columns_[i];
        if (column.refused_unit && holds_length(column.holds)) {
            findings.add(Code::ImportUnit, spot(header_row_, static_cast<int>(i)),
                         "the unit in " + quoted(column.name) + " is not taken");
        }
        feet = feet || imperial(column.unit);
        metric = metric || (column.unit != LengthUnit::None && !imperial(column.unit));
    }
    const LengthUnit system = feet && !metric ? LengthUnit::Foot : LengthUnit::Metre;
    const LengthUnit asked = length_unit(options.sheet_unit).value_or(system);
    const LengthUnit named = unit_of_sights(findings);
    const LengthUnit sights = named != LengthUnit::None ? named : asked;
    const LengthUnit others = imperial(asked) ? LengthUnit::Foot : LengthUnit::Metre;
    for (SheetColumn& column : columns_) {
        if (column.unit == LengthUnit::None) column.unit = with_sights(column.holds) ? sights : others;
    }
}

void SheetColumns::settle(const CsvOptions& options, SheetFindings& findings) {
    prefer_sight_columns();
    settle_point();
    report_twice(findings);
    report_missing(findings);
    report_unused(findings);
    settle_units(options, findings);
}

}  // namespace fallwright::text
