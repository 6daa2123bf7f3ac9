// pdf: a document of core/sheet as PDF, by Cairo and Pango.
//
// Vector drawings, real text in embedded subsets of a font, outline from the headings, title and author in
// the file's properties, the foot and "page i of n" on each page. Lengths are millimetres of paper as the
// document gives them; a figure keeps its size, so that the scales stated in it hold, unless no page is large
// enough: then it says by how much it is reduced.
//
// Tables break between rows and repeat their heads; figures, frames and signatures stay whole; figures and
// tables that are too wide turn their page; no heading is left at a page's end.
#pragma once

#include <string>

#include "base/result.h"
#include "sheet/document.h"

namespace fallwright::pdf {

// What stands in the file's properties beside the document's title and subject; each may be "".
struct Properties {
    std::string author;   // who took the readings, as the book has it
    std::string program;  // name and version
    std::string made_at;  // RFC 3339; "" leaves the date out
};

// The file's bytes. Same document, properties, fonts and libraries, same bytes. A finding only where Cairo
// ran out of memory or found no font at all.
Result<std::string> pdf_of(const sheet::Document& document, const Properties& properties);

}  // namespace fallwright::pdf
