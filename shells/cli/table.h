// table: aligned columns of text for a terminal.
#pragma once

#include <string>
#include <vector>

namespace fallwright::cli {

enum class Align { Left, Right };

class Table {
  public:
    struct Column {
        std::string title;
        Align align = Align::Right;
    };
    explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

    // One cell a column.
    void add(std::vector<std::string> cells);
    // A rule under the rows so far.
    void rule();
    bool empty() const { return rows_.empty(); }

    // Two spaces between columns; columns without any text are left out. Widths count characters, not bytes.
    std::string text() const;

  private:
    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;  // an empty row is a rule
};

}  // namespace fallwright::cli
