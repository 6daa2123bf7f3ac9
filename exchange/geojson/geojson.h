// geojson: GeoJSON (RFC 7946), points and lines on WGS 84, both ways.
//
// Written: a FeatureCollection. `kind` of a feature says what it is: point (name, level, sd, standing held,
// measured or wanted), line (name, use, start), chamber, pipe (bore). Coordinates are longitude and latitude
// to 1e-9 degree, 0.1 mm. Levels are properties in the unit that stands beside them, not a third coordinate,
// which would be a height above the ellipsoid. Read: points (Point, MultiPoint) and lines (LineString) as
// plans. name, level, sd, unit ("m" or "ft", else the book's), standing are taken from the properties; a
// third coordinate is not taken, with a note. Features of kind pipe and chamber belong to lines and are not
// read back; areas are not taken.
//
// A book without a projection is refused either way (projection.h). Pure and total; a file over 16 MB, deeper
// than 32 or of more than 200,000 features is refused.
#pragma once

#include <string>
#include <string_view>

#include "exchange/geojson/projection.h"
#include "exchange/handover/handover.h"

namespace fallwright::geojson {

struct Written {
    std::string text;
    Findings notes;
};

Written write_geojson(const handover::Handover& from, const Projection& projection);

struct Read {
    handover::Handover found;
    Findings findings;  // with an error there is nothing in `found` to use
};

// unit: of levels that name none.
Read read_geojson(std::string_view text, const Projection& projection, Unit unit);

// Whether a text looks like one: a JSON object with a type that GeoJSON knows. Looks at the beginning only.
bool is_geojson(std::string_view text);

}  // namespace fallwright::geojson
