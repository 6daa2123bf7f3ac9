#include "exchange/text/level_csv.h"

#include <array>
#include <optional>
#include <utility>

#include "exchange/text/book_lines.h"
#include "exchange/text/csv_rows.h"
#include "exchange/text/decimal_mark.h"
#include "exchange/text/level_run.h"
#include "exchange/text/sheet_columns.h"
#include "exchange/text/sheet_findings.h"
#include "exchange/text/sheet_record.h"
#include "exchange/text/sight_lengths.h"
#include "exchange/text/text_decode.h"

namespace fallwright::text {

namespace {

constexpr std::size_t last_header_row = 100;
constexpr std::array<char, 4> separators = {',', ';', '\t', '|'};

// The header, and the lines of text above it.
struct SheetHead {
    std::optional<SheetColumns> columns;
    std::vector<std::string> titles;
};

// Title lines as remarks, each no longer than a cell may be.
void add_title(std::vector<std::string>& titles, const CsvRow& row, std::size_t longest) {
    std::string title;
    for (const std::string& cell : row.cells) {
        const std::string text = one_line(cell);
        if (text.empty()) continue;
        if (!title.empty() && title.size() + text.size() + 2 > longest)
            titles.push_back(std::exchange(title, {}));
        title += (title.empty() ? "" : ", ") + text;
    }
    if (!title.empty()) titles.push_back(std::move(title));
}

SheetHead read_head(CsvRows& rows, const CsvOptions& options) {
    SheetHead head;
    CsvRow row;
    while (rows.next(row) && row.number <= last_header_row) {
        SheetColumns columns(row);
        if (columns.is_header()) {
            head.columns = std::move(columns);
            break;
        }
        add_title(head.titles, row, options.limits.cell_bytes);
    }
    return head;
}

// With the right separator most names of columns are seen.
char separator_of(std::string_view text, const CsvOptions& options) {
    if (options.separator != '\0') return options.separator;
    if (const char named = separator_named(text)) return named;
    char best = ',';
    std::size_t most = 0;
    for (const char separator : separators) {
        CsvRows rows(text, separator, options.limits);
        const SheetHead head = read_head(rows, options);
        const std::size_t recognised = head.columns ? head.columns->recognised() : 0;
        if (recognised <= most) continue;
        most = recognised;
        best = separator;
    }
    return best;
}

class Importer {
  public:
    Importer(const CsvOptions& options, SheetFindings& findings) : options_(options), findings_(findings) {}

    std::vector<std::string> import(std::string_view bytes) {
        if (!check_options() || !check_size(bytes)) return {};
        const std::optional<std::string> text = to_utf8(bytes, findings_);
        if (!text) return {};
        text_ = *text;
        separator_ = separator_of(text_, options_);
        return read_sheet();
    }

  private:
    bool check_options() {
        const bool known = options_.sheet_unit.empty() || length_unit(options_.sheet_unit);
        const bool book = options_.unit.empty() || options_.unit == "m" || options_.unit == "ft";
        if (!known || !book) {
            findings_.add(Code::ImportUnit, {},
                          quoted(known ? options_.unit : options_.sheet_unit) + " is no unit taken here",
                          "m or ft for the book; m, dm, cm, mm, ft or in for the sheet");
        }
        return known && book;
    }

    bool check_size(std::string_view bytes) {
        if (bytes.size() <= options_.limits.bytes) return true;
        findings_.add(Code::ImportTooLarge, {},
                      "the file has " + std::to_string(bytes.size()) + " bytes, more than " +
                          std::to_string(options_.limits.bytes));
        return false;
    }

    CsvRows rows() const { return {text_, separator_, options_.limits}; }

    std::vector<std::string> read_sheet() {
        CsvRows head_rows = rows();
        SheetHead head = read_head(head_rows, options_);
        if (!head.columns) {
            head_rows.report(findings_);
            if (!findings_.any_error()) findings_.add(Code::ImportNoHeader, {}, "no row names the columns");
            return {};
        }
        SheetColumns& columns = *head.columns;
        const std::size_t units_row = take_units(head_rows, columns);
        columns.settle(options_, findings_);
        if (findings_.any_error()) return {};
        const SheetForm form{options_, columns, mark_of(columns, units_row)};
        return read_body(form, head.titles, units_row);
    }

    // The number of the last row of the head.
    std::size_t take_units(CsvRows& rows_below, SheetColumns& columns) {
        CsvRow row;
        while (rows_below.next(row)) {
            if (row.cells.empty()) continue;
            return columns.take_units(row, findings_) ? row.number : columns.header_row();
        }
        return columns.header_row();
    }

    DecimalMark mark_of(const SheetColumns& columns, std::size_t head_end) {
        MarkVote vote;
        CsvRows body = rows();
        CsvRow row;
        while (body.next(row)) {
            ++rows_;
            for (std::size_t i = 0; i < row.cells.size() && row.number > head_end; ++i) {
                const bool length = i < columns.all().size() && columns.all()[i].holds < Column::amounts;
                if (length) vote.add(row.cells[i], largest_in(columns, columns.all()[i].holds));
            }
        }
        if (options_.decimal_mark != '\0') return {options_.decimal_mark, true};
        return {vote.mark(separator_), false};
    }

    std::vector<std::string> read_body(const SheetForm& form, const std::vector<std::string>& titles,
                                       std::size_t head_end) {
        const std::vector<Record> records = read_records(form, head_end);
        const LevelRun run = follow(records, form, findings_);
        if (run.setups == 0 && !findings_.any_error())
            findings_.add(Code::ImportEmpty, {}, "no sight stands below the names of the columns");
        const SightLengths lengths(records, form, findings_);
        if (findings_.any_error()) return {};
        return book_lines(run, lengths, titles, form);
    }

    std::vector<Record> read_records(const SheetForm& form, std::size_t head_end) {
        std::vector<Record> records;
        records.reserve(rows_);
        CsvRows body = rows();
        CsvRow row;
        while (body.next(row)) {
            if (row.number <= head_end || row.cells.empty() || form.columns.repeated_by(row)) continue;
            note_unnamed(row, form.columns);
            records.push_back(read_record(row, form, findings_));
        }
        body.report(findings_);
        return records;
    }

    void note_unnamed(const CsvRow& row, const SheetColumns& columns) {
        for (std::size_t i = 0; i < row.cells.size() && !unnamed_noted_; ++i) {
            const bool unnamed = i >= columns.all().size() || columns.all()[i].name.empty();
            if (!unnamed || row.cells[i].empty() || foot_word(row.cells[i]) != FootWord::None) continue;
            findings_.add(Code::ImportNotUsed, columns.spot(row.number, static_cast<int>(i)),
                          "a cell in a column without a name, " + quoted(row.cells[i]) + ", is not used",
                          "name the column Remarks to keep what stands in it");
            unnamed_noted_ = true;
        }
    }

    const CsvOptions& options_;
    SheetFindings& findings_;
    std::string_view text_;
    char separator_ = ',';
    std::size_t rows_ = 0;
    bool unnamed_noted_ = false;
};

}  // namespace

ImportedBook import_level_csv(std::string_view bytes, const CsvOptions& options) {
    SheetFindings findings(options.limits.findings_per_code);
    ImportedBook book;
    book.lines = Importer(options, findings).import(bytes);
    book.findings = findings.take();
    return book;
}

}  // namespace fallwright::text
