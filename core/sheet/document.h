// document: what goes out to people, as values: headings, statements, facts, tables, figures, one after the
// other.
//
// One document is rendered as text for a terminal, as one self-contained HTML file (render.h) and as PDF
// (exchange/native). A renderer lays out and adds page numbers; it changes no word and no figure. All
// numbers come here as they shall be read.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "sheet/figure.h"

namespace fallwright::sheet {

// Sheets upright; a drawing that needs the width turns its page.
enum class Paper : std::uint8_t { A4, Letter };

// Millimetres. The margin holds on all four sides; a renderer puts head and page number into it.
struct PaperSize {
    double width, height, margin;
};
constexpr PaperSize size_of(Paper paper) {
    return paper == Paper::A4 ? PaperSize{210, 297, 18} : PaperSize{215.9, 279.4, 18};
}

// Depths follow one another: no 3 right after a 1.
// A heading never stands alone at the end of a page.
struct Heading {
    int depth = 1;  // 1 a chapter, 2 a section, 3 a paragraph's heading
    std::string text;
};

// How loud a statement is: a paragraph, small print, bold, a frame, a lighter frame.
enum class Tone : std::uint8_t { Plain, Small, Strong, Caution, Finding };

struct Statement {
    std::string text;  // one paragraph, no line breaks
    Tone tone = Tone::Plain;
};
// What every renderer puts before a statement, so that no tone is told by its frame alone: "Caution: " before
// a caution that does not begin with that word itself; "" before all others.
std::string word_before(const Statement& statement);

// Points under each other, each one paragraph.
struct List {
    std::vector<std::string> items;
};

// A short table of names and values: "Datum: ...".
struct Facts {
    // Both as they shall be read; an empty value is an empty line to write on.
    struct Fact {
        std::string name, value;
    };
    std::vector<Fact> facts;
};

enum class Align : std::uint8_t { Left, Right, Centre };

// A cell that carries a word of judgement repeats it by a mark and an ink.
struct Cell {
    std::string text;
    bool strong = false;
    bool has_mark = false;
    Mark mark = Mark::OnBar;
    Ink ink = Ink::Line;
};

struct Table {
    struct Column {
        std::string title;  // with its unit: "level m"
        Align align = Align::Right;
        bool wraps = false;  // long text; all others stay on one line
    };
    // A row of other length than the columns is a programmer's error.
    struct Row {
        std::vector<Cell> cells;  // one a column
        bool ruled = false;       // a line under it
    };
    std::string title;  // over the table; "" for none
    std::vector<Column> columns;
    std::vector<Row> rows;
};

// A figure that is wider than high may go on a page of its own, turned.
// Its title stands under it, what it says is read aloud and printed as text.
struct Drawn {
    Figure figure;
};

// An empty box to sign in, with what stands under its line.
struct Signature {
    std::vector<std::string> under;  // one box each: "name", "signature", "date"
};

// What follows begins on a new sheet; on a screen and in text a rule.
struct PageBreak {};

using Block = std::variant<Heading, Statement, List, Facts, Table, Drawn, Signature, PageBreak>;

struct Document {
    std::string title;    // of the file and the first page
    std::string subject;  // one line
    std::string language = "en-GB";
    std::string foot;  // at every page's foot beside the page number
    Paper paper = Paper::A4;
    bool one_sheet = false;  // set smaller, down to what can still be read, where that makes it one sheet
    std::vector<Block> blocks;
};

}  // namespace fallwright::sheet
