#include "exchange/tables/point_list.h"

#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "exchange/tables/csv_out.h"
#include "exchange/text/column_name.h"
#include "exchange/text/csv_rows.h"
#include "exchange/text/decimal_mark.h"
#include "exchange/text/sheet_columns.h"
#include "exchange/text/sheet_findings.h"
#include "exchange/text/sheet_number.h"
#include "exchange/text/sheet_words.h"
#include "exchange/text/text_decode.h"

namespace fallwright::tables {

namespace {

using handover::Point;
using handover::Standing;
using text::CsvRow;
using text::CsvRows;
using text::LengthUnit;
using text::Spot;

enum class Holds : std::uint8_t {
    Point,
    East,
    North,
    Level,
    Known,
    Wanted,
    Sd,
    Chainage,
    Offset,
    Note,
    Axis,
    Other
};
constexpr std::size_t kinds = static_cast<std::size_t>(Holds::Other);
constexpr std::size_t last_header_row = 100;

// The name of a column without what stands in brackets, folded.
std::string word_of(std::string_view name) {
    return text::folded(text::trimmed_text(name.substr(0, name.find_first_of("([,"))));
}

Holds holds_of(std::string_view name) {
    const std::string word = word_of(name);
    const auto is = [&](std::string_view words) { return text::one_of(word, words); };
    if (is("e east easting eastings rechtswert ostwert")) return Holds::East;
    if (is("n north northing northings hochwert nordwert")) return Holds::North;
    if (is("x y")) return Holds::Axis;
    if (is("sd stddev standarddeviation uncertainty")) return Holds::Sd;
    if (is("designlevel design wanted wantedlevel proposedlevel proposed formationlevel finishedlevel "
           "solllevel sollhohe"))
        return Holds::Wanted;
    switch (text::column_named(word)) {
        case text::Column::Point:
        case text::Column::Number:
            return Holds::Point;
        case text::Column::Level:
            return Holds::Level;
        case text::Column::Known:
            return Holds::Known;
        case text::Column::Chainage:
        case text::Column::Station:
            return Holds::Chainage;
        case text::Column::Offset:
            return Holds::Offset;
        case text::Column::Remark:
            return Holds::Note;
        default:
            return word == "z" ? Holds::Level : Holds::Other;
    }
}

struct Header {
    std::size_t row = 0;
    std::array<int, kinds> at{};
    std::vector<std::string> names;
    std::vector<LengthUnit> units;

    bool has(Holds what) const { return at[static_cast<std::size_t>(what)] >= 0; }
    int column(Holds what) const { return at[static_cast<std::size_t>(what)]; }
    // Two columns that belong together make a list of it.
    bool is_list() const {
        const bool on_grid = (has(Holds::East) && has(Holds::North)) || has(Holds::Axis);
        const bool on_line = has(Holds::Chainage) && (has(Holds::Level) || has(Holds::Wanted) ||
                                                      has(Holds::Known) || has(Holds::Offset));
        return on_grid || on_line;
    }
};

Header header_of(const CsvRow& row) {
    Header header;
    header.row = row.number;
    header.at.fill(-1);
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        header.names.push_back(text::one_line(row.cells[i]));
        header.units.push_back(text::read_column_name(row.cells[i]).unit);
        const Holds what = holds_of(row.cells[i]);
        if (what == Holds::Other) continue;
        int& at = header.at[static_cast<std::size_t>(what)];
        if (at < 0) at = static_cast<int>(i);
    }
    // A station beside east and north is the name of a point.
    int& point = header.at[static_cast<std::size_t>(Holds::Point)];
    int& station = header.at[static_cast<std::size_t>(Holds::Chainage)];
    if (header.has(Holds::East) && header.has(Holds::North) && point < 0) std::swap(point, station);
    return header;
}

std::optional<Header> find_header(std::string_view text, char separator, const text::CsvLimits& limits) {
    CsvRows rows(text, separator, limits);
    CsvRow row;
    while (rows.next(row) && row.number <= last_header_row) {
        if (text::SheetColumns(row).is_header()) return std::nullopt;  // a level book
        Header header = header_of(row);
        if (header.is_list()) return header;
    }
    return std::nullopt;
}

struct Found {
    Header header;
    char separator = ',';
};

std::optional<Found> find_list(std::string_view text, const text::CsvOptions& options) {
    const char named = options.separator != '\0' ? options.separator : text::separator_named(text);
    for (const char separator : {',', ';', '\t', '|'}) {
        if (named != '\0' && separator != named) continue;
        if (auto header = find_header(text, separator, options.limits))
            return Found{std::move(*header), separator};
    }
    return std::nullopt;
}

class ListReader {
  public:
    ListReader(std::string_view text, Found found, const ListOptions& options, text::SheetFindings& findings)
        : text_(text),
          header_(std::move(found.header)),
          separator_(found.separator),
          options_(options),
          findings_(findings) {}

    handover::Handover read() {
        if (!settle()) return {};
        mark_ = decimal_mark();
        CsvRows rows(text_, separator_, options_.sheet.limits);
        CsvRow row;
        while (rows.next(row)) {
            if (row.number > header_.row && !row.cells.empty()) this->row(row);
        }
        rows.report(findings_);
        if (!findings_.any_error() && !made_.any() && line_.profile.empty())
            findings_.add(Code::ImportEmpty, {}, "no point stands below the names of the columns");
        if (!findings_.any_error()) finish_line();
        return findings_.any_error() ? handover::Handover{} : std::move(made_);
    }

  private:
    Spot spot(std::size_t row, Holds what) const {
        const int column = header_.column(what);
        return {row, column,
                column < 0 ? std::string_view() : header_.names[static_cast<std::size_t>(column)]};
    }

    // What the columns are, before any row; false where that is refused.
    bool settle() {
        if (header_.has(Holds::Axis)) {
            findings_.add(Code::ImportColumn, spot(header_.row, Holds::Axis),
                          "x and y do not say which of them points north", "name the columns east and north");
            return false;
        }
        on_line_ = !(header_.has(Holds::East) && header_.has(Holds::North));
        if (on_line_ && options_.sheet.line.empty()) {
            findings_.add(Code::ImportColumn, spot(header_.row, Holds::Chainage),
                          "chainages belong to a line, and none is named", "name it: --line L1");
            return false;
        }
        if (!on_line_ && !header_.has(Holds::Point)) {
            findings_.add(Code::ImportColumn, {header_.row, -1, {}}, "no column names the points",
                          "add a column point");
            return false;
        }
        level_ = header_.has(Holds::Wanted)  ? Holds::Wanted
                 : header_.has(Holds::Known) ? Holds::Known
                                             : Holds::Level;
        standing_ = level_ == Holds::Wanted                            ? Levels::Wanted
                    : level_ == Holds::Known || header_.has(Holds::Sd) ? Levels::Known
                                                                       : options_.levels;
        if (!header_.has(level_) || standing_ != Levels::Unsaid) return true;
        findings_.add(
            Code::ImportColumn, spot(header_.row, level_),
            "it is not said whether these levels are known or wanted",
            "say --levels known or --levels wanted, or name the column known level or design level");
        return false;
    }

    text::DecimalMark decimal_mark() const {
        if (options_.sheet.decimal_mark != '\0') return {options_.sheet.decimal_mark, true};
        text::MarkVote vote;
        CsvRows rows(text_, separator_, options_.sheet.limits);
        CsvRow row;
        while (rows.next(row)) {
            if (row.number <= header_.row) continue;
            for (const Holds what :
                 {Holds::East, Holds::North, level_, Holds::Chainage, Holds::Offset, Holds::Sd})
                if (header_.has(what)) vote.add(row.cell(header_.column(what)), 0);
        }
        return {vote.mark(separator_), false};
    }

    LengthUnit unit_of(int column) const {
        const LengthUnit own = header_.units[static_cast<std::size_t>(column)];
        if (own != LengthUnit::None) return own;
        if (const auto said = text::length_unit(options_.sheet.sheet_unit);
            said && !options_.sheet.sheet_unit.empty())
            return *said;
        return options_.sheet.unit == "ft" ? LengthUnit::Foot : LengthUnit::Metre;
    }

    // Metres; unknown for an empty cell, a finding where it holds no number.
    double length(const CsvRow& row, Holds what) {
        if (!header_.has(what)) return handover::unknown;
        const int column = header_.column(what);
        const std::string_view cell = row.cell(column);
        if (text::stands_for_nothing(cell)) return handover::unknown;
        const text::ParsedAmount parsed = text::parse_amount(cell, mark_, unit_of(column));
        if (parsed.fault == text::NumberFault::None) return parsed.amount.length().metres();
        const bool two = parsed.fault == text::NumberFault::Ambiguous;
        findings_.add(two ? Code::ImportAmbiguous : Code::ImportNumber, spot(row.number, what),
                      text::quoted(cell) + (two ? " may be read with decimals or with thousands"
                                                : " is no number that can be taken"));
        return handover::unknown;
    }

    std::string words(const CsvRow& row, Holds what) const {
        return header_.has(what) ? text::one_line(without_guard(row.cell(header_.column(what))))
                                 : std::string();
    }

    void missing(const CsvRow& row, Holds what, const char* name) {
        findings_.add(Code::ImportNumber, spot(row.number, what), std::string(name) + " is missing");
    }

    void row(const CsvRow& row) {
        Point point;
        point.name = words(row, Holds::Point);
        point.line = static_cast<std::uint32_t>(row.number);
        point.note = words(row, Holds::Note);
        point.level = length(row, level_);
        point.sd = length(row, Holds::Sd);
        const bool held = level_ == Holds::Known || !header_.has(Holds::Sd) || point.sd == 0;
        point.standing = standing_ == Levels::Wanted ? Standing::Wanted
                         : held                      ? Standing::Held
                                                     : Standing::Measured;
        if (on_line_) return line_row(row, std::move(point));
        point.e = length(row, Holds::East);
        point.n = length(row, Holds::North);
        const bool east = handover::known(point.e), north = handover::known(point.n);
        if (east != north) return missing(row, east ? Holds::North : Holds::East, east ? "north" : "east");
        if (point.name.empty()) return missing(row, Holds::Point, "the name of the point");
        if (standing_ == Levels::Wanted && !options_.sheet.line.empty()) follow(point);
        made_.points.push_back(std::move(point));
    }

    // The line through the points in their order.
    void follow(const Point& point) {
        if (!point.placed()) return;
        double ch = 0;
        if (!line_.plan.empty()) {
            const auto& last = line_.plan.back();
            const double step = std::hypot(point.e - last.e, point.n - last.n);
            constexpr double least = 0.001;
            if (step < least) return;
            ch = chainage_ + step;
        }
        chainage_ = ch;
        line_.plan.push_back({point.e, point.n});
        if (handover::known(point.level)) line_.profile.push_back({ch, point.level, point.level, 0});
    }

    void line_row(const CsvRow& row, Point point) {
        const double ch = length(row, Holds::Chainage);
        const double off = length(row, Holds::Offset);
        if (!handover::known(ch)) return missing(row, Holds::Chainage, "the chainage");
        point.on = options_.sheet.line;
        point.ch = ch;
        point.off = handover::known(off) ? off : 0;
        constexpr double least_offset = 0.0005;
        const bool wanted = standing_ == Levels::Wanted && handover::known(point.level);
        if (wanted && std::fabs(point.off) < least_offset) profile_point(row, ch, point.level);
        if (wanted && std::fabs(point.off) >= least_offset) ++beside_;
        if (!point.name.empty()) made_.points.push_back(std::move(point));
    }

    void profile_point(const CsvRow& row, double ch, double level) {
        constexpr double same = 0.0005;
        std::vector<handover::Corner>& profile = line_.profile;
        if (!profile.empty() && ch < profile.back().ch + same) {
            if (std::fabs(ch - profile.back().ch) < same && std::fabs(level - profile.back().before) < same)
                return;
            findings_.add(Code::ImportRow, {row.number, -1, {}},
                          "its chainage does not lie beyond the one above it",
                          "put the rows in order of chainage; nothing has been imported");
            return;
        }
        profile.push_back({ch, level, level, 0});
    }

    void finish_line() {
        if (beside_ > 0)
            findings_.add(
                Code::ImportNotUsed, {},
                std::to_string(beside_) + " levels beside the line are not taken: a line's profile is on it");
        if (line_.plan.size() == 1) line_.plan.clear();
        if (line_.plan.empty() && line_.profile.empty()) return;
        line_.name = options_.sheet.line;
        made_.lines.push_back(std::move(line_));
    }

    std::string_view text_;
    Header header_;
    char separator_;
    const ListOptions& options_;
    text::SheetFindings& findings_;
    text::DecimalMark mark_;
    bool on_line_ = false;
    Holds level_ = Holds::Level;
    Levels standing_ = Levels::Unsaid;
    handover::Handover made_;
    handover::Line line_;
    double chainage_ = 0;
    std::size_t beside_ = 0;
};

}  // namespace

bool is_point_list(std::string_view bytes, const text::CsvOptions& options) {
    text::SheetFindings findings(1);
    if (bytes.size() > options.limits.bytes) return false;
    const std::optional<std::string> text = text::to_utf8(bytes, findings);
    return text && find_list(*text, options);
}

ReadList read_point_list(std::string_view bytes, const ListOptions& options) {
    ReadList read;
    text::SheetFindings findings(options.sheet.limits.findings_per_code);
    const std::optional<std::string> text = text::to_utf8(bytes, findings);
    if (text) {
        if (auto found = find_list(*text, options.sheet)) {
            const Header header = found->header;
            read.found = ListReader(*text, std::move(*found), options, findings).read();
            read.found.unit = options.sheet.unit == "ft" ? Unit::Foot : Unit::Metre;
            for (const LengthUnit unit : header.units) {
                if (options.sheet.unit.empty() && text::imperial(unit)) read.found.unit = Unit::Foot;
            }
        } else {
            findings.add(Code::ImportNoHeader, {}, "no row names the columns of a list of points",
                         "name the columns: point, east, north, level; or chainage, offset, level");
        }
    }
    read.findings = findings.take();
    return read;
}

}  // namespace fallwright::tables
