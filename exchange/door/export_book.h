// export_book: a book as a file of another program.
//
//   csv       one table of levels, stations, setout, readings or falls (tables/csv_out.h)
//   landxml   points, lines, pipes, surfaces (landxml/landxml.h)
//   geojson   points and lines on WGS 84 (geojson/geojson.h)
// Figures are those of the answers: rounded as there, in the book's unit.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "desk/desk.h"

namespace fallwright::door {

struct ExportWish {
    std::string as;                  // csv, landxml, geojson
    std::string table = "levels";    // of csv
    std::string line, setup, every;  // of the table setout; line also of stations and falls
    std::vector<std::string> what;
};

struct Exported {
    std::string name;  // a file name made from the book's title
    std::string type;  // its media type
    std::string text;
    Findings notes;  // what has no place in that format
};

Result<Exported> export_book(const desk::OpenBook& open, const ExportWish& wish);

// "csv", "landxml", "geojson", "jsonl" by the ending of a file's name; empty for others.
std::string format_of(std::string_view file);

// A file name from a title: letters, digits and hyphens, then the ending.
std::string file_name(std::string_view title, std::string_view part, std::string_view ending);

}  // namespace fallwright::door
