#include "shells/cli/told_text.h"

namespace fallwright::cli {

namespace {

std::string indented(const std::string& lines, int depth) {
    if (depth <= 0) return lines;
    const std::string blanks(2 * static_cast<std::size_t>(depth), ' ');
    std::string text;
    bool begins = true;
    for (const char c : lines) {
        if (begins) text += blanks;
        text += c;
        begins = c == '\n';
    }
    return text;
}

}  // namespace

std::string table_text(const sheet::Table& table) {
    std::vector<Table::Column> columns;
    for (const sheet::Table::Column& column : table.columns)
        columns.push_back({column.title, column.align == sheet::Align::Left ? Align::Left : Align::Right});
    Table text(std::move(columns));
    for (const sheet::Table::Row& row : table.rows) {
        std::vector<std::string> cells;
        for (const sheet::Cell& cell : row.cells) cells.push_back(cell.text);
        text.add(std::move(cells));
        if (row.ruled) text.rule();
    }
    return text.empty() ? "" : text.text();
}

std::string told_text(const std::vector<record::Told>& pieces, int depth) {
    std::string text;
    for (const record::Told& piece : pieces)
        text += piece.table ? indented(table_text(*piece.table), piece.depth + depth - 1)
                            : indented(piece.text + "\n", piece.depth + depth);
    return text;
}

}  // namespace fallwright::cli
