// render: documents as text and HTML, figures as SVG. Pure: same values, same bytes, natively and in the
// browser.
//
// HTML is one self-contained file: styles within, no script, nothing fetched; it prints with page numbers'
// room, on the document's paper. SVG is SVG 1.1 that a librsvg, a browser and a drawing program show alike:
// real text, no script, no style sheet, attributes only; ids only where a title needs one.
#pragma once

#include <string>

#include "sheet/document.h"

namespace fallwright::sheet {

// Markdown-like plain text for a terminal, lines end with \n; figures as title and what they show.
std::string text_of(const Document& document);
std::string html_of(const Document& document);
// `ids` begins every id in it, so that several figures may stand in one page.
std::string svg_of(const Figure& figure, const std::string& ids = "f");

}  // namespace fallwright::sheet
