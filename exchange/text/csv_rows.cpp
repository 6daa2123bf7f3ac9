#include "exchange/text/csv_rows.h"

#include <algorithm>
#include <array>

namespace fallwright::text {

namespace {

constexpr std::string_view separator_line = "sep=";
// No-break space, thin space, figure space, narrow no-break space, and the mark of UTF-8 left inside.
constexpr std::array<std::string_view, 5> wide_spaces = {"\xC2\xA0", "\xE2\x80\x89", "\xE2\x80\x87",
                                                         "\xE2\x80\xAF", "\xEF\xBB\xBF"};

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

// Bytes of white space at the beginning, 0 where there is none.
std::size_t leading_space(std::string_view text) {
    if (text.empty()) return 0;
    if (is_space(text.front())) return 1;
    for (const std::string_view space : wide_spaces) {
        if (text.substr(0, space.size()) == space) return space.size();
    }
    return 0;
}

std::size_t trailing_space(std::string_view text) {
    if (text.empty()) return 0;
    if (is_space(text.back())) return 1;
    for (const std::string_view space : wide_spaces) {
        if (text.size() >= space.size() && text.substr(text.size() - space.size()) == space)
            return space.size();
    }
    return 0;
}

void trim(std::string& cell) {
    const std::string_view kept = trimmed_text(cell);
    const auto begin = static_cast<std::size_t>(kept.data() - cell.data());
    cell.erase(begin + kept.size());
    cell.erase(0, begin);
}

}  // namespace

std::string_view trimmed_text(std::string_view text) {
    while (const std::size_t bytes = leading_space(text)) text.remove_prefix(bytes);
    while (const std::size_t bytes = trailing_space(text)) text.remove_suffix(bytes);
    return text;
}

std::string one_line(std::string_view text) {
    std::string out;
    for (const char c : trimmed_text(text)) {
        const bool blank = static_cast<unsigned char>(c) <= 0x20 || c == '\x7F';
        if (!blank) out += c;
        if (blank && !out.empty() && out.back() != ' ') out += ' ';
    }
    return out;
}

char separator_named(std::string_view text) {
    const bool named = text.size() > separator_line.size() &&
                       text.substr(0, separator_line.size()) == separator_line &&
                       (text.size() == separator_line.size() + 1 || text[separator_line.size() + 1] == '\r' ||
                        text[separator_line.size() + 1] == '\n');
    return named ? text[separator_line.size()] : '\0';
}

std::string_view CsvRow::cell(int column) const {
    const auto index = static_cast<std::size_t>(column);
    return column >= 0 && index < cells.size() ? std::string_view(cells[index]) : std::string_view();
}

CsvRows::CsvRows(std::string_view text, char separator, const CsvLimits& limits)
    : text_(text), separator_(separator), limits_(limits) {
    if (separator_named(text_) == '\0') return;
    at_ = separator_line.size() + 1;
    pass_line_end();
}

bool CsvRows::at_line_end() const {
    return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
}

void CsvRows::pass_line_end() {
    const bool carriage_return = at_ < text_.size() && text_[at_] == '\r';
    at_ = std::min(at_ + 1, text_.size());
    if (carriage_return && at_ < text_.size() && text_[at_] == '\n') ++at_;
}

void CsvRows::stop(Trouble trouble, const CsvRow& row) {
    trouble_ = trouble;
    where_.row = row.number;
    where_.column = static_cast<int>(used_) - 1;
}

// Adds [begin, end) of the text; over the limit only as much as shows that it is.
void CsvRows::append(std::string& cell, std::size_t begin, std::size_t end) const {
    const std::size_t room = limits_.cell_bytes + 1 - std::min(cell.size(), limits_.cell_bytes + 1);
    cell += text_.substr(begin, std::min(end - begin, room));
}

bool CsvRows::read_quoted(std::string& cell) {
    ++at_;
    while (cell.size() <= limits_.cell_bytes) {
        const std::size_t quote = text_.find('"', at_);
        if (quote == std::string_view::npos) return false;
        append(cell, at_, quote);
        at_ = quote + 1;
        if (at_ >= text_.size() || text_[at_] != '"') return true;
        cell += '"';
        ++at_;
    }
    return true;
}

void CsvRows::read_cell(CsvRow& row) {
    if (used_ == row.cells.size()) row.cells.emplace_back();
    std::string& cell = row.cells[used_++];
    cell.clear();
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    if (at_ < text_.size() && text_[at_] == '"' && !read_quoted(cell)) return stop(Trouble::OpenQuote, row);
    const std::size_t begin = at_;
    while (!at_line_end() && text_[at_] != separator_) ++at_;
    append(cell, begin, at_);
    if (cell.size() > limits_.cell_bytes) return stop(Trouble::LongCell, row);
    trim(cell);
}

void CsvRows::read_row(CsvRow& row) {
    used_ = 0;
    while (trouble_ == Trouble::None) {
        if (used_ == limits_.columns) return stop(Trouble::ManyColumns, row);
        read_cell(row);
        if (at_line_end()) break;
        ++at_;
    }
    pass_line_end();
    while (used_ > 0 && row.cells[used_ - 1].empty()) --used_;
    row.cells.resize(used_);
}

bool CsvRows::next(CsvRow& row) {
    if (trouble_ != Trouble::None || at_ >= text_.size()) return false;
    row.number = ++rows_;
    if (rows_ > limits_.rows) {
        used_ = 0;
        stop(Trouble::ManyRows, row);
    } else {
        read_row(row);
    }
    return trouble_ == Trouble::None;
}

void CsvRows::report(SheetFindings& findings) const {
    switch (trouble_) {
        case Trouble::None:
            return;
        case Trouble::OpenQuote:
            return findings.add(Code::ImportQuote, where_, "the quote that opens here is never closed");
        case Trouble::LongCell:
            return findings.add(
                Code::ImportTooLarge, where_,
                "a cell is longer than " + std::to_string(limits_.cell_bytes) + " bytes",
                "shorten it; a quote that is opened and never closed makes a cell of all that follows");
        case Trouble::ManyColumns:
            return findings.add(Code::ImportTooLarge, where_,
                                "a row has more than " + std::to_string(limits_.columns) + " columns");
        case Trouble::ManyRows:
            return findings.add(Code::ImportTooLarge, where_,
                                "the sheet has more than " + std::to_string(limits_.rows) + " rows");
    }
}

}  // namespace fallwright::text
