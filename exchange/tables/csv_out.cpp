#include "exchange/tables/csv_out.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/print.h"

namespace fallwright::tables {

namespace {

bool runs(char c) {
    return c == '=' || c == '+' || c == '-' || c == '@' || c == '\t' || c == '\r';
}

// Apostrophes, then one of the characters that a spreadsheet runs.
bool looks_guarded(std::string_view text) {
    const std::size_t first = text.find_first_not_of('\'');
    return first != std::string_view::npos && runs(text[first]);
}

}  // namespace

std::string safe_cell(std::string_view text) {
    return looks_guarded(text) ? "'" + std::string(text) : std::string(text);
}

std::string_view without_guard(std::string_view cell) {
    return !cell.empty() && cell[0] == '\'' && looks_guarded(cell) ? cell.substr(1) : cell;
}

CsvOut::CsvOut(const std::vector<std::string>& columns) : columns_(columns.size()) {
    for (const std::string& column : columns) text(column);
    end();
}

void CsvOut::separate() {
    assert(cells_ < columns_);
    if (cells_++ > 0) out_ += ',';
}

CsvOut& CsvOut::text(std::string_view value) {
    separate();
    const std::string safe = safe_cell(value);
    if (safe.find_first_of(",\"\r\n") == std::string::npos) {
        out_ += safe;
        return *this;
    }
    out_ += '"';
    for (const char c : safe) {
        if (c == '"') out_ += '"';
        out_ += c;
    }
    out_ += '"';
    return *this;
}

CsvOut& CsvOut::number(double value, int places) {
    separate();
    if (std::isfinite(value)) append_trimmed(out_, value, places);
    return *this;
}

CsvOut& CsvOut::written(std::string_view number) {
    separate();
    out_ += number;
    return *this;
}

CsvOut& CsvOut::end() {
    assert(cells_ == columns_);
    cells_ = 0;
    out_ += "\r\n";
    return *this;
}

std::string CsvOut::take() {
    const bool ascii =
        std::all_of(out_.begin(), out_.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    std::string all = ascii ? std::string() : "\xEF\xBB\xBF";
    all += out_;
    out_.clear();
    return all;
}

}  // namespace fallwright::tables
