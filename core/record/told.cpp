#include "record/told.h"

#include "record/words.h"

namespace fallwright::record {

void write_told(Writer& out, std::vector<Told> pieces, int heading_depth) {
    std::vector<std::string> items;
    const auto flush = [&] {
        out.list(std::move(items));
        items.clear();
    };
    for (Told& piece : pieces) {
        if (piece.table) {
            flush();
            Rows rows("", piece.table->columns);
            for (sheet::Table::Row& row : piece.table->rows) rows.add_cells(std::move(row.cells));
            out.table(std::move(rows));
        } else if (piece.depth == 0) {
            flush();
            out.heading(heading_depth, std::move(piece.text));
        } else if (piece.depth > 1 && !items.empty()) {
            items.back() += piece.depth == 2 ? ". " + capital(std::move(piece.text)) : "; " + piece.text;
        } else {
            items.push_back(std::move(piece.text));
        }
    }
    flush();
}

}  // namespace fallwright::record
