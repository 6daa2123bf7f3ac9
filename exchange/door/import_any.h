// import_any: a file of another program -> entries of a book, whatever it is.
//
// What it is, its content says: XML is LandXML, a JSON object GeoJSON, all else separated values, of a level
// book where it has columns of sights (text/level_csv.h), else of a list (tables/point_list.h). Pure and
// total; nothing is half imported: with an error finding there are no lines.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "exchange/tables/point_list.h"

namespace fallwright::door {

struct ImportWish {
    std::string as;     // csv, landxml, geojson; empty: by the content
    std::string use;    // of lines that say none: drain, road, kerb, slab, other
    double sd = 0.010;  // of measured levels that say none, metres
    bool sd_given = false;
    tables::ListOptions list;  // with the name of the file, and what a new book is called
};

struct Imported {
    // Complete JSON entries in the order to append them, without id, at and by: the tool stamps those.
    std::vector<std::string> lines;
    Findings findings;
};

// into: the book they go to; nullptr for a new one.
Imported import_any(std::string_view bytes, const Book* into, ImportWish wish);

}  // namespace fallwright::door
