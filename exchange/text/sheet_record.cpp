#include "exchange/text/sheet_record.h"

#include <algorithm>
#include <utility>

#include "exchange/text/known_level.h"
#include "exchange/text/row_name.h"
#include "exchange/text/sheet_words.h"

namespace fallwright::text {

namespace {

constexpr double highest_ground = 9000;
constexpr Decimal farthest_height = Decimal::ticks(1000000000000);  // 100 km, so that sums stay exact

bool is_distance(Column column) {
    return column >= Column::Distance && column <= Column::ForeLength;
}

class RowReader {
  public:
    RowReader(const CsvRow& row, const SheetForm& form, SheetFindings& findings)
        : row_(row), form_(form), columns_(form.columns), findings_(findings) {}

    Record read() {
        record_ = name_row(row_, form_, findings_);
        const FootWord foot = foot_of_page();
        if (foot == FootWord::None) {
            read_figures();
        } else {
            read_foot(foot);
        }
        return std::move(record_);
    }

  private:
    std::string_view cell(Column column) const { return row_.cell(columns_.at(column)); }
    Spot spot(Column column) const { return columns_.spot(row_.number, column); }

    // A label at the foot of a page stands where points are named or, with no point named, in any cell that
    // holds no figures; a sum sign may also stand before a sum.
    FootWord foot_of_page() const {
        if (const FootWord word = foot_word(record_.point); word != FootWord::None) return word;
        for (std::size_t i = 0; i < row_.cells.size(); ++i) {
            const bool figures = i < columns_.all().size() && columns_.all()[i].holds < Column::amounts;
            if (figures && has_sum_sign(row_.cells[i])) return FootWord::Sum;
            if (figures || !record_.point.empty()) continue;
            if (const FootWord word = foot_word(row_.cells[i]); word != FootWord::None) return word;
        }
        return FootWord::None;
    }

    static bool has_sum_sign(std::string_view text) {
        const std::string word = folded(text.substr(0, 8));
        return word.substr(0, 3) == "sum";
    }

    // "Sum 8.133", "8.133 - 7.693 = 0.440": the figure behind a sum sign or an equals sign.
    static std::string_view sum_in(std::string_view text) {
        const std::size_t equals = text.find_last_of('=');
        if (equals != std::string_view::npos) return text.substr(equals + 1);
        if (!has_sum_sign(text)) return text;
        return text.substr(std::min(text.find_first_of("0123456789+-.,"), text.size()));
    }

    void read_foot(FootWord foot) {
        record_.kind = foot == FootWord::Sum     ? Record::Kind::Sum
                       : foot == FootWord::Check ? Record::Kind::Check
                                                 : Record::Kind::Aside;
        for (std::size_t i = 0; i < static_cast<std::size_t>(Column::Level); ++i) {
            const auto column = static_cast<Column>(i);
            const std::string_view text = cell(column);
            const ParsedAmount parsed = parse_amount(sum_in(text), form_.decimal_mark, columns_.unit(column));
            if (parsed.fault == NumberFault::None) record_[column] = parsed.amount;
        }
    }

    void read_figures() {
        for (std::size_t i = 0; i < record_.amounts.size(); ++i) {
            const auto column = static_cast<Column>(i);
            const bool read_elsewhere = column == Column::Staff || column == Column::Known ||
                                        column == Column::Level || column == Column::Offset;
            if (!read_elsewhere && columns_.has(column)) record_[column] = figure(column, cell(column));
        }
        read_staff();
        read_level();
        check_lengths();
        classify();
    }

    Amount figure(Column column, std::string_view text) {
        if (stands_for_nothing(text)) return {};
        const ParsedAmount parsed = parse_amount(text, form_.decimal_mark, columns_.unit(column));
        if (parsed.fault == NumberFault::None) return parsed.amount;
        report(parsed.fault, column, text);
        // A sight that cannot be read is still a sight of its row.
        return column <= Column::Staff ? Amount{0, 0, columns_.unit(column)} : Amount();
    }

    void report(NumberFault fault, Column column, std::string_view text) {
        switch (fault) {
            case NumberFault::Ambiguous:
                return findings_.add(Code::ImportAmbiguous, spot(column),
                                     quoted(text) + " may mean decimals or thousands");
            case NumberFault::TooLarge:
                return findings_.add(Code::ImportNumber, spot(column), quoted(text) + " is too large");
            case NumberFault::SheetError:
                return findings_.add(Code::ImportNumber, spot(column),
                                     quoted(text) + " is an error shown by the spreadsheet",
                                     "repair the formula or widen the column, then save again");
            default:
                return findings_.add(Code::ImportNumber, spot(column), quoted(text) + " is no number");
        }
    }

    void read_staff() {
        if (!columns_.has(Column::Staff)) return;
        const Amount reading = figure(Column::Staff, cell(Column::Staff));
        const std::string_view word = cell(Column::Sight);
        const SightWord sight = sight_word(word);
        if (reading && sight == SightWord::None) {
            findings_.add(Code::ImportRow, spot(Column::Sight),
                          word.empty() ? "a reading without its sight" : quoted(word) + " is no sight",
                          "write BS, IS or FS");
        }
        if (!reading && sight != SightWord::None) {
            findings_.add(Code::ImportRow, spot(Column::Staff), "a sight without its reading",
                          "give the reading, or clear the sight");
        }
        if (sight == SightWord::Back) record_[Column::Back] = reading;
        if (sight == SightWord::Inter) record_[Column::Inter] = reading;
        if (sight == SightWord::Fore) record_[Column::Fore] = reading;
    }

    void read_level() {
        const KnownLevel level = read_known_level(
            {cell(Column::Level), cell(Column::Known),
             record_.named_by_remark ? record_.point : record_.remark, record_.point, form_.decimal_mark,
             columns_.unit(Column::Level), columns_.unit(Column::Known)});
        if (level.level_fault != NumberFault::None)
            report(level.level_fault, Column::Level, cell(Column::Level));
        if (level.known_fault != NumberFault::None)
            report(level.known_fault, Column::Known, cell(Column::Known));
        if (level.known_without_level) {
            findings_.add(Code::ImportRow, spot(Column::Known), "marked as known, without a level",
                          "give the level in the column of levels");
        }
        record_[Column::Level] = level.booked;
        record_.known_level = level.known;
        record_.known_from_level = level.known_is_booked;
    }

    void check_lengths() {
        for (std::size_t i = 0; i < record_.amounts.size(); ++i) {
            const auto column = static_cast<Column>(i);
            Amount& amount = record_.amounts[i];
            if (!amount || column == Column::Offset) continue;
            const Decimal length = amount.magnitude().length();
            if (is_distance(column)) {
                if (amount.negative())
                    findings_.add(Code::ImportNumber, spot(column), "a distance below zero",
                                  "write it without a sign");
                if (amount.digits == 0) amount = {};
            } else if (length > farthest_height) {
                findings_.add(Code::ImportNumber, spot(column),
                              amount.written(LengthUnit::Metre) + " m is too large");
            }
        }
    }

    void classify() {
        const auto& given = record_.amounts;
        const auto sights_end = given.begin() + static_cast<int>(Column::Staff);
        const auto present = [](const Amount& amount) { return static_cast<bool>(amount); };
        if (std::any_of(given.begin(), sights_end, present)) {
            record_.kind = Record::Kind::Sights;
        } else if (std::any_of(sights_end, given.end(), present) || record_.known_level) {
            record_.kind = Record::Kind::Figures;
        } else {
            record_.kind = Record::Kind::Heading;
        }
    }

    const CsvRow& row_;
    const SheetForm& form_;
    const SheetColumns& columns_;
    SheetFindings& findings_;
    Record record_;
};

}  // namespace

Record read_record(const CsvRow& row, const SheetForm& form, SheetFindings& findings) {
    return RowReader(row, form, findings).read();
}

double largest_in(const SheetColumns& columns, Column column) {
    constexpr double no_limit = 1e9;
    const bool of_staff = column <= Column::Staff || column == Column::Rise || column == Column::Fall ||
                          column == Column::RiseFall;
    const bool of_ground =
        column == Column::Level || column == Column::Known || column == Column::Collimation;
    const LengthUnit unit = columns.unit(column);
    if (of_ground && (unit == LengthUnit::Metre || unit == LengthUnit::Foot)) return 0;
    const double metres = of_staff ? longest_staff.metres() : of_ground ? highest_ground : no_limit;
    return metres * Decimal::ticks_per_metre / static_cast<double>(scale_of(unit).ticks);
}

}  // namespace fallwright::text
