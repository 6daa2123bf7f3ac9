#include "exchange/door/export_book.h"

#include <algorithm>

#include "book/time.h"
#include "evaluation/evaluation.h"
#include "exchange/door/csv_tables.h"
#include "exchange/geojson/geojson.h"
#include "exchange/handover/gather.h"
#include "exchange/landxml/landxml.h"

namespace fallwright::door {

namespace {

// The time of the last entry: an export of the same book is the same file, whenever it is made.
std::string last_time(const Book& book) {
    Instant last = before_all;
    for (const Entry& entry : book.entries) last = std::max(last, entry.at);
    return last == before_all ? "1970-01-01T00:00:00Z" : format_time(last);
}

Exported named(const Book& book, std::string_view part, std::string_view ending, const char* type) {
    Exported made;
    made.name = file_name(book.title, part, ending);
    made.type = type;
    return made;
}

const char* const place_something = "give points a place (e, n) or lines a plan, or export levels as CSV";

Result<Exported> as_landxml(const Book& book, const handover::Handover& all) {
    const bool profiles = std::any_of(all.lines.begin(), all.lines.end(),
                                      [](const handover::Line& line) { return !line.profile.empty(); });
    if (!all.any_placed() && !profiles)
        return finding(Code::ExportNothing, {},
                       "no point of the book has a place on the grid, no line a plan or a profile",
                       place_something);
    landxml::Written written = landxml::write_landxml(all, last_time(book));
    Exported made = named(book, "", "xml", "application/xml");
    made.text = std::move(written.text);
    made.notes = std::move(written.notes);
    return made;
}

Result<Exported> as_geojson(const Book& book, const handover::Handover& all,
                            const geojson::Projection& projection) {
    if (!all.any_placed())
        return finding(Code::ExportNothing, {},
                       "no point of the book has a place on the grid, no line a plan", place_something);
    geojson::Written written = geojson::write_geojson(all, projection);
    Exported made = named(book, "", "geojson", "application/geo+json");
    made.text = std::move(written.text);
    made.notes = std::move(written.notes);
    return made;
}

}  // namespace

std::string file_name(std::string_view title, std::string_view part, std::string_view ending) {
    constexpr std::size_t longest = 40;
    std::string name;
    for (const char c : title) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        const bool capital = c >= 'A' && c <= 'Z';
        if (name.size() >= longest) break;
        if (letter || capital)
            name += capital ? static_cast<char>(c - 'A' + 'a') : c;
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (!name.empty() && name.back() == '-') name.pop_back();
    if (name.empty()) name = "book";
    if (!part.empty()) name += "-" + std::string(part);
    return name + "." + std::string(ending);
}

std::string format_of(std::string_view file) {
    const std::size_t dot = file.rfind('.');
    std::string ending(dot == std::string_view::npos ? std::string_view() : file.substr(dot + 1));
    for (char& c : ending) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    if (ending == "csv" || ending == "geojson" || ending == "jsonl") return ending;
    return ending == "xml" || ending == "landxml" ? "landxml" : "";
}

Result<Exported> export_book(const desk::OpenBook& open, const ExportWish& wish) {
    const std::shared_ptr<const Book> book = desk::book_of(open);
    if (wish.as == "csv") {
        const Result<std::string> table = csv_table(open, wish);
        if (!table) return table.finding();
        Exported made = named(*book, wish.table, "csv", "text/csv");
        made.text = *table;
        return made;
    }
    if (wish.as == "landxml") return as_landxml(*book, handover::gather(evaluate(book)));
    if (wish.as == "geojson") {
        const Result<geojson::Projection> projection = geojson::projection_of(*book);
        if (!projection) return projection.finding();
        return as_geojson(*book, handover::gather(evaluate(book)), *projection);
    }
    return finding(Code::BadRequest, {"as"},
                   wish.as.empty() ? "it is not said as what" : wish.as + " is no format",
                   "take csv, landxml, geojson or jsonl");
}

}  // namespace fallwright::door
