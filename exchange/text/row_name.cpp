#include "exchange/text/row_name.h"

#include <optional>
#include <utility>

#include "exchange/text/sheet_place.h"

namespace fallwright::text {

namespace {

void append_part(std::string& text, std::string_view between, std::string_view part) {
    if (part.empty()) return;
    if (!text.empty()) text += between;
    text += part;
}

class RowNamer {
  public:
    RowNamer(const CsvRow& row, const SheetForm& form, SheetFindings& findings)
        : row_(row), form_(form), columns_(form.columns), findings_(findings) {}

    Record name() {
        record_.row = row_.number;
        read_remark();
        read_point();
        check_size();
        return std::move(record_);
    }

  private:
    std::string_view cell(Column column) const { return row_.cell(columns_.at(column)); }
    Spot spot(Column column) const { return columns_.spot(row_.number, column); }

    void read_remark() {
        for (std::size_t i = 0; i < columns_.all().size(); ++i) {
            if (columns_.all()[i].holds != Column::Remark) continue;
            append_part(record_.remark, "; ", one_line(row_.cell(static_cast<int>(i))));
        }
    }

    // An entry of the book has 64 KiB at most.
    void check_size() {
        const std::size_t longest = form_.options.limits.cell_bytes;
        if (record_.point.size() + record_.remark.size() <= longest) return;
        findings_.add(Code::ImportTooLarge, {row_.number, -1, {}},
                      "name and remark are longer than " + std::to_string(longest) + " bytes",
                      "shorten them");
    }

    void read_point() {
        const bool on_line = !form_.options.line.empty();
        if (columns_.point_column() != Column::Remark)
            record_.point = one_line(cell(columns_.point_column()));
        if (on_line) {
            read_line_place();
        } else {
            name_by_chainage();
        }
        const bool named = !record_.point.empty() || record_.chainage;
        if (named || columns_.point_column() == Column::Point) return;
        record_.point = std::exchange(record_.remark, {});
        record_.named_by_remark = !record_.point.empty();
    }

    // Without a line: the chainage is the name, or goes beside a name into the remark.
    void name_by_chainage() {
        const std::string chainage =
            columns_.point_column() == Column::Chainage ? std::string() : one_line(cell(Column::Chainage));
        std::string place = chainage;
        const std::string offset = one_line(cell(Column::Offset));
        if (record_.point.empty()) {
            record_.point = chainage;
            place.clear();
        }
        if (columns_.point_column() == Column::Chainage || place.empty()) {
            name_by_offset(offset);
        } else {
            std::string text = "ch " + place;
            append_part(text, " ", offset.empty() ? offset : "off " + offset);
            append_part(text, ", ", record_.remark);
            record_.remark = text;
        }
    }

    void name_by_offset(const std::string& text) {
        if (text.empty() || record_.point.empty()) return;
        const std::optional<Amount> offset = parse_offset(text, form_.decimal_mark, LengthUnit::Metre);
        if (!offset || offset->digits == 0) return append_part(record_.point, " ", offset ? "" : text);
        record_.point += offset->negative() ? " L" : " R";
        record_.point += offset->magnitude().written(offset->unit);
    }

    void read_line_place() {
        const bool own_column = columns_.has(Column::Chainage);
        const Column column = own_column ? Column::Chainage : Column::Station;
        const std::string text = one_line(cell(column));
        if (text.empty()) return;
        if (const auto chainage = parse_chainage(text, form_.decimal_mark, columns_.unit(column))) {
            record_.chainage = *chainage;
            if (columns_.point_column() == column) record_.point.clear();
            read_offset();
        } else if (columns_.point_column() != column) {
            findings_.add(Code::ImportNumber, spot(column), quoted(text) + " is no chainage",
                          "write it like 40, 40.25 or 0+040");
        }
    }

    void read_offset() {
        const std::string_view text = cell(Column::Offset);
        if (stands_for_nothing(text)) return;
        if (const auto offset = parse_offset(text, form_.decimal_mark, columns_.unit(Column::Offset))) {
            record_[Column::Offset] = *offset;
        } else {
            findings_.add(Code::ImportNumber, spot(Column::Offset), quoted(text) + " is no offset",
                          "write it like -3.5, L 3.5 or R 3.5");
        }
    }

    const CsvRow& row_;
    const SheetForm& form_;
    const SheetColumns& columns_;
    SheetFindings& findings_;
    Record record_;
};

}  // namespace

Record name_row(const CsvRow& row, const SheetForm& form, SheetFindings& findings) {
    return RowNamer(row, form, findings).name();
}

}  // namespace fallwright::text
