// projection: east and north of a book's grid <-> longitude and latitude on WGS 84, by its rule projection.
//
// Transverse Mercator by the series of Krueger in the third flattening to its sixth power (Karney 2011,
// "Transverse Mercator with an accuracy of a few nanometers", J. Geodesy 85; coefficients from memory, held
// to the PROJ library by tests/exchange). Within 40 degrees of the central meridian it is good to far under a
// micrometre. Then, where the rule states it, to WGS 84 by three shifts, three turns and a scale of the
// Earth's axes, the turns as those of the position vector. Heights play no part (0 m above the ellipsoid): a
// height moves a place by up to its own size times the shift over the Earth's radius, 11 mm for 100 m of
// height and a shift of 700 m.
//
// What this is not: a shift of that kind between two national datums is itself good to metres only; grids of
// shifts, which bring it to centimetres, are not covered. The projection itself is exact. Metres, degrees.
#pragma once

#include <array>
#include <optional>

#include "base/result.h"
#include "book/book.h"
#include "exchange/handover/handover.h"

namespace fallwright::geojson {

struct LonLat {
    double lon = 0, lat = 0;
};

class Projection {
  public:
    // rule.given(), its ellipsoid's figures with it.
    explicit Projection(const ProjectionRule& rule);

    // Nothing farther than 40 degrees from the central meridian.
    std::optional<LonLat> to_lon_lat(double e, double n) const;
    std::optional<handover::EastNorth> to_grid(const LonLat& at) const;

    // On the rule's own ellipsoid, without the shift to WGS 84; for those who compare with tables.
    handover::EastNorth project(const LonLat& at) const;
    LonLat unproject(double e, double n) const;

  private:
    using Vector = std::array<double, 3>;
    Vector shifted(const Vector& at) const;
    LonLat on_wgs_84(const LonLat& own) const;

    ProjectionRule rule_;
    double e2_ = 0;                           // first eccentricity squared
    double radius_ = 0;                       // of the rectifying sphere
    std::array<double, 6> alpha_{}, beta_{};  // of the series there and back
    double north_0_ = 0;                      // of the natural origin
};

// The book's projection; NoProjection where it states none, or an ellipsoid that is not that of WGS 84
// without saying how it lies to it.
Result<Projection> projection_of(const Book& book);

}  // namespace fallwright::geojson
