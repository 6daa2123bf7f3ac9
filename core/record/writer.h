// writer: the blocks of a record in the making. Inside record only.
//
// A heading stands only where something follows it: chapters without content leave nothing behind. Long
// tables are cut, and say so. Columns without any text are left out, as on the terminal.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "evaluation/evaluation.h"
#include "record/drawings.h"
#include "record/words.h"
#include "sheet/document.h"

namespace fallwright::record {

// A table row by row. Cells as many as columns.
class Rows {
  public:
    Rows(std::string title, std::vector<sheet::Table::Column> columns);

    void add(std::vector<std::string> cells);
    void add_cells(std::vector<sheet::Cell> cells);
    // A line under the rows so far.
    void rule();
    void add_column(sheet::Table::Column column) { table_.columns.push_back(std::move(column)); }
    std::size_t width() const { return table_.columns.size(); }
    bool empty() const { return table_.rows.empty(); }
    std::size_t size() const { return table_.rows.size(); }
    // Columns without any text left out.
    sheet::Table take() &&;
    // Two tables in the height of the longer one.
    static Rows beside(Rows left, Rows right);

  private:
    sheet::Table table_;
};

// Columns: a text to the left, a long text that wraps, a figure to the right.
sheet::Table::Column words_column(std::string title);
sheet::Table::Column text_column(std::string title);
sheet::Table::Column figure_column(std::string title);

// "within", "outside", ... with the mark and ink that repeat the word: high is a wedge down, low a wedge up,
// within a bar, too close to call a ring. Untested: an empty cell.
sheet::Cell verdict_cell(const Judgement& judged, double deviation);

class Writer {
  public:
    // More rows than anybody works through by hand; the rest stands in the book.
    static constexpr std::size_t most_rows = 2000;

    Writer(const Evaluation& of, sheet::Paper paper)
        : evaluation(of), book(*of.book), model(*of.model), unit(book.unit), paper_(paper) {}

    // Chapters 1, sections 2, paragraphs 3.
    void heading(int depth, std::string text);
    void say(std::string text, sheet::Tone tone = sheet::Tone::Plain);
    void list(std::vector<std::string> items);
    void facts(std::vector<sheet::Facts::Fact> facts);
    void table(Rows rows);
    void figures(std::vector<sheet::Figure> figures);
    // Room for a drawing, upright with its heading above it, or on a page of its own, turned.
    Room upright() const;
    Room turned() const;
    void signature(std::vector<std::string> under);
    void page_break();
    std::vector<sheet::Block> take() && { return std::move(blocks_); }

    // "18.1 mm", without a sign.
    std::string mm(double metres) const;
    // A level as it is worked with by hand: to 0.1 mm (0.0001 ft).
    std::string fine(double metres) const;
    // The same with its sign.
    std::string signed_fine(double metres) const;
    std::string name(NameId id) const { return book.name(id); }

    const Evaluation& evaluation;
    const Book& book;
    const Model& model;
    Unit unit;

  private:
    void add(sheet::Block block);
    sheet::Paper paper_;
    std::vector<sheet::Heading> due_;  // headings that nothing follows yet
    std::vector<sheet::Block> blocks_;
};

}  // namespace fallwright::record
