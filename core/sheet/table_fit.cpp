#include "sheet/table_fit.h"

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "sheet/type.h"

namespace fallwright::sheet {

namespace {

// Widths at a size of 1.
struct Needs {
    double least = 0;  // nothing is cut
    double most = 0;   // nothing breaks
};

double longest_word(std::string_view text, bool bold) {
    double longest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        longest = std::max(longest, text_width(text.substr(0, end), 1, bold));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return longest;
}

Needs needs_of(const Table& table, std::size_t k) {
    const Table::Column& column = table.columns[k];
    Needs needs{longest_word(column.title, true), 0};
    // A heading of two lines is usual, so half of it is what it would like to have.
    needs.most = std::max(needs.least, text_width(column.title, 1, true) / 2);
    for (const Table::Row& row : table.rows) {
        if (k >= row.cells.size()) continue;
        const Cell& cell = row.cells[k];
        const double mark = cell.has_mark ? mark_room : 0,
                     whole = mark + text_width(cell.text, 1, cell.strong);
        const double least = column.wraps ? mark + longest_word(cell.text, cell.strong) : whole;
        needs.least = std::max(needs.least, least);
        needs.most = std::max(needs.most, whole);
    }
    // A narrow strip of long text is worse than smaller type.
    constexpr double column_of_text = 14;
    if (column.wraps) needs.least = std::max(needs.least, std::min(needs.most, column_of_text));
    return needs;
}

double width_of(const std::vector<Needs>& needs, double size, double Needs::*which) {
    double sum = 0;
    for (const Needs& each : needs) sum += each.*which * size + 2 * cell_padding;
    return sum;
}

// From least to most as far as there is room; a table is never stretched beyond what it would like.
std::vector<double> shared(const std::vector<Needs>& needs, double size, double room) {
    const double least = width_of(needs, size, &Needs::least), most = width_of(needs, size, &Needs::most);
    const double share = most > least ? std::clamp((room - least) / (most - least), 0.0, 1.0) : 0;
    const double squeeze = std::min(1.0, room / least);
    std::vector<double> widths;
    for (const Needs& each : needs) {
        const double width = (each.least + share * (each.most - each.least)) * size + 2 * cell_padding;
        widths.push_back(width * squeeze);
    }
    return widths;
}

}  // namespace

TableFit fit_of(const Table& table, PaperSize paper) {
    std::vector<Needs> needs;
    for (std::size_t k = 0; k < table.columns.size(); ++k) needs.push_back(needs_of(table, k));
    if (needs.empty()) return {table_sizes[0], {}, false, true};
    constexpr std::size_t upright_sizes = 3;
    double size = table_sizes[0], room = 0;
    for (const bool turned : {false, true}) {
        room = (turned ? paper.height : paper.width) - 2 * paper.margin;
        for (std::size_t k = 0; k < (turned ? std::size(table_sizes) : upright_sizes); ++k) {
            size = table_sizes[k];
            if (width_of(needs, size, &Needs::least) <= room)
                return {size, shared(needs, size, room), turned, true};
        }
    }
    return {size, shared(needs, size, room), true, false};
}

}  // namespace fallwright::sheet
