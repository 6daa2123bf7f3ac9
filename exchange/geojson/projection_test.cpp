#include "exchange/geojson/projection.h"

#include <gtest/gtest.h>

#include <cmath>

#include "preset/ellipsoids.h"

namespace fallwright::geojson {
namespace {

double degrees(double d, double m, double s) {
    return d + m / 60 + s / 3600;
}

ProjectionRule rule(const char* ellipsoid, double latitude, double longitude, double scale, double east,
                    double north) {
    ProjectionRule made;
    const preset::Ellipsoid* known = preset::find_ellipsoid(ellipsoid);
    made.a = {known->a};
    made.inverse_flattening = {known->inverse_flattening};
    made.latitude = {latitude};
    made.longitude = {longitude};
    made.scale = scale;
    made.false_east = east;
    made.false_north = north;
    return made;
}

ProjectionRule national_grid() {
    return rule("airy-1830", 49, -2, 0.9996012717, 400000, -100000);
}

// The worked example of Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C: printed to
// the millimetre and to 0.0001 of a second, 3 mm.
TEST(Projection, WorkedExampleOfTheNationalGrid) {
    const Projection grid(national_grid());
    const LonLat there{degrees(1, 43, 4.5177), degrees(52, 39, 27.2531)};
    const handover::EastNorth at = grid.project(there);
    EXPECT_NEAR(at.e, 651409.903, 0.001);
    EXPECT_NEAR(at.n, 313177.270, 0.001);
    const LonLat back = grid.unproject(651409.903, 313177.270);
    EXPECT_NEAR(back.lon, there.lon, 2e-8);
    EXPECT_NEAR(back.lat, there.lat, 2e-8);
}

// EPSG guidance note 7-2, transverse Mercator: 50d30'N 0d30'E on the National Grid with the scale rounded as
// there, printed to the centimetre (from memory).
TEST(Projection, WorkedExampleOfTheGuidanceNote) {
    ProjectionRule rounded = national_grid();
    rounded.scale = 0.9996013;
    const handover::EastNorth at = Projection(rounded).project({0.5, 50.5});
    EXPECT_NEAR(at.e, 577274.99, 0.005);
    EXPECT_NEAR(at.n, 69740.50, 0.005);
}

TEST(Projection, ThereAndBackIsTheSamePlaceOverItsWholeReach) {
    ProjectionRule shifted = national_grid();
    shifted.shifted = true;
    shifted.shift = {446.448, -125.157, 542.06};
    shifted.turn = {0.1502, 0.247, 0.8421};
    shifted.ppm = -20.4894;
    for (const ProjectionRule& each : {national_grid(), rule("grs-80", 0, 9, 0.9996, 500000, 0), shifted}) {
        const Projection grid(each);
        for (double lat = -80; lat <= 80; lat += 20) {
            for (double away = -30; away <= 30; away += 15) {
                const LonLat from{each.longitude.value + away, lat};
                const auto at = grid.to_grid(from);
                ASSERT_TRUE(at);
                const auto back = grid.to_lon_lat(at->e, at->n);
                ASSERT_TRUE(back);
                EXPECT_NEAR(back->lon, from.lon, 1e-10);
                EXPECT_NEAR(back->lat, from.lat, 1e-10);
            }
        }
    }
}

TEST(Projection, BeyondItsReachThereIsNothing) {
    const Projection grid(rule("grs-80", 0, 9, 0.9996, 500000, 0));
    EXPECT_FALSE(grid.to_grid({60, 50}));
    EXPECT_FALSE(grid.to_lon_lat(1e8, 0));
    EXPECT_FALSE(grid.to_lon_lat(0, NAN));
    EXPECT_TRUE(grid.to_lon_lat(500000, 0));
}

// The shift alone: a point on the equator at Greenwich, shifted along one axis (geometry).
TEST(Projection, ShiftMovesTheEarthsCentre) {
    ProjectionRule moved = rule("wgs-84", 0, 0, 1, 0, 0);
    moved.shifted = true;
    moved.shift = {0, 100, 0};
    const auto at = Projection(moved).to_lon_lat(0, 0);
    ASSERT_TRUE(at);
    EXPECT_NEAR(at->lon, std::atan2(100, 6378137) * 180 / 3.14159265358979, 1e-9);
    EXPECT_NEAR(at->lat, 0, 1e-12);
    ProjectionRule turned = rule("wgs-84", 0, 0, 1, 0, 0);
    turned.shifted = true;
    turned.turn = {0, 0, 3600};
    EXPECT_NEAR(Projection(turned).to_lon_lat(0, 0)->lon, 1, 0.001);
}

}  // namespace
}  // namespace fallwright::geojson
