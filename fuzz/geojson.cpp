// Any text is GeoJSON or refused, and what is taken of it becomes entries or none at all.
#include "exchange/geojson/geojson.h"

#include "book/book.h"
#include "exchange/handover/entries.h"
#include "fuzz/fuzz.h"

using namespace fallwright;

namespace {

const geojson::Projection& grid() {
    static const geojson::Projection made =
        *geojson::projection_of(**read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n{"
                                            "\"kind\":\"rule\",\"name\":\"projection\","
                                            "\"values\":{\"ellipsoid\":\"airy-1830\",\"latitude\":49,"
                                            "\"longitude\":-2,\"shift\":[446.448,-125.157,542.06]}}\n"));
    return made;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const geojson::Read read = geojson::read_geojson(fuzz::text(data, size), grid(), Unit::Metre);
    for (const Finding& each : read.findings) {
        if (catalogue(each.code).severity == Severity::Error) return 0;
    }
    const handover::Prepared made = handover::entries_of(read.found, nullptr, {});
    if (made.lines.empty()) return 0;
    std::string lines;
    for (const std::string& line : made.lines) lines += line + "\n";
    fuzz::must(static_cast<bool>(read_book(std::move(lines))), "what is imported is a book");
    return 0;
}
