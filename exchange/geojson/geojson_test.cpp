#include "exchange/geojson/geojson.h"

#include <gtest/gtest.h>

#include <memory>
#include <nlohmann/json.hpp>

namespace fallwright::geojson {
namespace {

const std::string grid_rule =
    R"({"kind":"rule","name":"projection","values":{"ellipsoid":"grs-80","latitude":0,"longitude":9,"scale":0.9996,"false_east":500000}})";

std::unique_ptr<Book> book_of(const std::string& entries) {
    return std::move(
        *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + entries + "\n"));
}

Projection grid() {
    return *projection_of(*book_of(grid_rule));
}

Read read(const std::string& text) {
    return read_geojson(text, grid(), Unit::Metre);
}

std::string refused(const std::string& text) {
    for (const Finding& each : read(text).findings) {
        if (catalogue(each.code).severity != Severity::Error) continue;
        std::string all;
        for (const std::string& about : each.about) all += about + ", ";
        return all + each.message;
    }
    return "";
}

std::string collection(const std::string& features) {
    return "{\"type\":\"FeatureCollection\",\n\"features\":[\n" + features + "]}";
}

std::string point(const std::string& coordinates, const std::string& properties = R"("name":"P")") {
    return R"({"type":"Feature","geometry":{"type":"Point","coordinates":)" + coordinates +
           R"(},"properties":{)" + properties + "}}";
}

TEST(GeoJson, WrittenAndReadAgain) {
    handover::Handover from;
    handover::Point made;
    made.name = "BM \"1\"";
    made.e = 512345.6789;
    made.n = 5312345.1234;
    made.level = 431.255;
    made.standing = handover::Standing::Held;
    from.points.push_back(made);
    made.name = "P2";
    made.standing = handover::Standing::Measured;
    made.sd = 0.0021;
    made.e += 40;
    from.points.push_back(made);
    made = {};
    made.name = "nowhere";
    made.level = 1;
    from.points.push_back(made);
    handover::Line line;
    line.name = "D1";
    line.use = "drain";
    line.start = 12.5;
    line.plan = {{512000, 5312000}, {512030, 5312010}};
    from.lines.push_back(line);
    const Written written = write_geojson(from, grid());
    ASSERT_EQ(written.notes.size(), 1U);
    EXPECT_EQ(written.notes[0].code, Code::ExportLeftOut);
    const Read back = read(written.text);
    ASSERT_TRUE(back.findings.empty()) << back.findings[0].message;
    ASSERT_EQ(back.found.points.size(), 2U);
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(back.found.points[i].name, from.points[i].name);
        EXPECT_EQ(back.found.points[i].standing, from.points[i].standing);
        EXPECT_NEAR(back.found.points[i].e, from.points[i].e, 0.0001);
        EXPECT_NEAR(back.found.points[i].n, from.points[i].n, 0.0001);
        EXPECT_EQ(back.found.points[i].level, from.points[i].level);
    }
    ASSERT_EQ(back.found.lines.size(), 1U);
    EXPECT_EQ(back.found.lines[0].start, 12.5);
    EXPECT_NEAR(back.found.lines[0].plan[1].n, 5312010, 0.0001);
}

// RFC 7946: longitude before latitude, no third coordinate that is no height above the ellipsoid, no crs.
TEST(GeoJson, IsAsTheStandardHasIt) {
    handover::Handover from;
    handover::Point made;
    made.name = "P";
    made.e = 500000;
    made.n = 5000000;
    made.level = 3;
    from.points.push_back(made);
    const nlohmann::json all = nlohmann::json::parse(write_geojson(from, grid()).text);
    EXPECT_EQ(all["type"], "FeatureCollection");
    EXPECT_FALSE(all.contains("crs"));
    const nlohmann::json& feature = all["features"][0];
    EXPECT_EQ(feature["geometry"]["type"], "Point");
    ASSERT_EQ(feature["geometry"]["coordinates"].size(), 2U);
    EXPECT_NEAR(feature["geometry"]["coordinates"][0].get<double>(), 9, 1e-9);
    EXPECT_NEAR(feature["geometry"]["coordinates"][1].get<double>(), 45.15, 0.1);
}

TEST(GeoJson, LevelsInTheirUnit) {
    const Read found = read(collection(point("[9,48]", R"("name":"A","level":100,"unit":"ft")") + ",\n" +
                                       point("[9,48,431.2]", R"("name":"B","level":100)")));
    ASSERT_EQ(found.found.points.size(), 2U);
    EXPECT_DOUBLE_EQ(found.found.points[0].level, 30.48);
    EXPECT_EQ(found.found.points[1].level, 100);
    ASSERT_EQ(found.findings.size(), 1U);
    EXPECT_EQ(found.findings[0].code, Code::ImportNotUsed);
}

TEST(GeoJson, WhatCannotBeTakenIsRefusedWithItsLine) {
    EXPECT_EQ(refused("{"), "line 1, the text is no JSON from there on");
    EXPECT_EQ(refused("[]"), "it is no FeatureCollection and no Feature");
    EXPECT_EQ(refused(collection(point("[9,48]") + ",\n" + point("[651409.903,313177.27]"))),
              "line 4, P, its coordinates are no longitude and latitude in degrees");
    EXPECT_EQ(refused(collection(point("[48]"))),
              "line 3, P, its coordinates are not longitude and latitude");
    EXPECT_EQ(refused(collection(point("[100,9]"))),
              "line 3, P, it lies more than 40 degrees from the meridian of the book's projection");
    EXPECT_EQ(refused(collection(point("[9,48]", R"("name":"P","level":"high")"))),
              "line 3, P, level is no length");
    EXPECT_EQ(refused(collection("1")), "feature 1, it is no Feature with a geometry");
    EXPECT_EQ(refused(R"({"type":"FeatureCollection","crs":{},"features":[]})"),
              "it names a coordinate system of its own (crs), which RFC 7946 does not have");
    EXPECT_EQ(refused(std::string(100, '[')), "it is nested deeper than 32");
    EXPECT_EQ(refused(collection(point("[9,48]")) + "\xFF"), "line 3, the text is no JSON from there on");
    EXPECT_EQ(refused(collection("")), "the file holds no points and no lines");
}

TEST(GeoJson, WithoutAProjectionThereIsNone) {
    EXPECT_EQ(projection_of(*book_of("")).finding().code, Code::NoProjection);
    const auto other = book_of(
        R"({"kind":"rule","name":"projection","values":{"ellipsoid":"airy-1830","latitude":49,"longitude":-2}})");
    EXPECT_EQ(projection_of(*other).finding().about, std::vector<std::string>{"#2"});
}

}  // namespace
}  // namespace fallwright::geojson
