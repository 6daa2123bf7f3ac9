#include "shells/cli/table.h"

#include <algorithm>

namespace fallwright::cli {

namespace {

// Characters of UTF-8 text: bytes that do not continue one.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

void append_cell(std::string& line, const std::string& cell, std::size_t width, Align align) {
    const std::string space(width - width_of(cell), ' ');
    line += align == Align::Right ? space + cell : cell + space;
    line += "  ";
}

void end_line(std::string& all, std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    all += "  " + line + "\n";
}

}  // namespace

void Table::add(std::vector<std::string> cells) {
    rows_.push_back(std::move(cells));
}

void Table::rule() {
    rows_.emplace_back();
}

std::string Table::text() const {
    std::vector<std::size_t> widths;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        std::size_t width = 0;
        for (const auto& row : rows_) width = std::max(width, row.empty() ? 0 : width_of(row[i]));
        widths.push_back(width == 0 ? 0 : std::max(width, width_of(columns_[i].title)));
    }
    std::string all;
    const auto write = [&](auto cell_of) {
        std::string line;
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (widths[i] > 0) append_cell(line, cell_of(i), widths[i], columns_[i].align);
        }
        end_line(all, std::move(line));
    };
    write([&](std::size_t i) { return columns_[i].title; });
    for (const auto& row : rows_) {
        write([&](std::size_t i) { return row.empty() ? std::string(widths[i], '-') : row[i]; });
    }
    return all;
}

}  // namespace fallwright::cli
