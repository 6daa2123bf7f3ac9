// sheets: a document laid out: what stands where on which sheet. Inside pdf only.
//
// Millimetres from the sheet's upper left corner, x to the right, y down. Texts are views into the document
// or into the text kept beside the sheets; the document must live as long as they do.
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "exchange/native/pdf/type.h"
#include "sheet/document.h"

namespace fallwright::pdf {

struct Words {
    sheet::At at;  // left end of the baseline
    std::string_view text;
    double size = 0;
    bool bold = false;
    Setting setting = Setting::Fine;
};
struct Rule {
    sheet::At from, to;
    sheet::Stroke stroke;
};
struct CellMark {
    const sheet::Cell* cell = nullptr;
    sheet::At at;  // upper left corner
    double size = 0;
};
struct Picture {
    const sheet::Figure* figure = nullptr;
    sheet::At at;  // upper left corner
    double scale = 1;
};

struct Sheet {
    bool turned = false;
    std::vector<std::variant<Words, Rule, CellMark, Picture>> pieces;
};

// A heading, for the outline of the file.
struct Bookmark {
    int depth = 1;
    std::string_view text;
    std::size_t sheet = 0;  // from 0
    sheet::At at;
};

struct Laid {
    double larger = 1;          // the sheets are so many times as large as the paper, and painted smaller
    std::vector<Sheet> sheets;  // one at least
    std::vector<Bookmark> bookmarks;
    std::deque<std::string> texts;  // what the views see that is not in the document
};

// A document for one sheet that needs more is laid out on larger ones, until it is one or its type would be
// too small to read.
Laid lay_out(const sheet::Document& document, Type& type);

}  // namespace fallwright::pdf
