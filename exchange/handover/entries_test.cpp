#include "exchange/handover/entries.h"

#include <gtest/gtest.h>

#include <memory>

namespace fallwright::handover {
namespace {

std::unique_ptr<Book> book_of(const std::string& entries) {
    return std::move(*read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + entries));
}

Point point(const std::string& name, double e, double n, double level, Standing standing = Standing::Held) {
    Point made;
    made.name = name;
    made.e = e;
    made.n = n;
    made.level = level;
    made.standing = standing;
    made.line = 7;
    return made;
}

std::string joined(const Prepared& prepared) {
    std::string all;
    for (const std::string& line : prepared.lines) all += line + "\n";
    return all;
}

// What was made reads as a book without a finding.
void expect_clean(const Prepared& prepared) {
    const auto book = read_book(joined(prepared));
    ASSERT_TRUE(book) << joined(prepared);
    for (const Finding& each : (*book)->findings) ADD_FAILURE() << one_line(each) << "\n" << joined(prepared);
}

TEST(Entries, PointsByWhatTheirLevelIs) {
    Handover from;
    from.title = "Mill Lane";
    from.points = {point("BM1", 10, 20, 50), point("P1", 11, 21, 50.1, Standing::Measured),
                   point("W1", 12, 22, 50.2, Standing::Wanted)};
    from.points[1].sd = 0.003;
    Intake intake;
    intake.source = "a.xml";
    const Prepared made = entries_of(from, nullptr, intake);
    EXPECT_EQ(
        joined(made),
        "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"title\":\"Mill Lane\",\"unit\":\"m\"}\n"
        "{\"kind\":\"remark\",\"text\":\"imported from a.xml\"}\n"
        "{\"kind\":\"place\",\"point\":\"BM1\",\"e\":10,\"n\":20}\n"
        "{\"kind\":\"benchmark\",\"point\":\"BM1\",\"level\":50,\"source\":\"a.xml, line 7\"}\n"
        "{\"kind\":\"place\",\"point\":\"P1\",\"e\":11,\"n\":21}\n"
        "{\"kind\":\"benchmark\",\"point\":\"P1\",\"level\":50.1,\"sd\":0.003,\"source\":\"a.xml, line 7\"}\n"
        "{\"kind\":\"place\",\"point\":\"W1\",\"e\":12,\"n\":22}\n");
    ASSERT_EQ(made.findings.size(), 1U);
    EXPECT_EQ(made.findings[0].code, Code::ImportNotUsed);
    expect_clean(made);
}

TEST(Entries, FeetAreWrittenAsTheyCame) {
    Handover from;
    from.unit = Unit::Foot;
    from.points = {point("BM1", 1000.25 * 0.3048, 2000000.123 * 0.3048, 123.456 * 0.3048)};
    const Prepared made = entries_of(from, nullptr, {});
    EXPECT_NE(joined(made).find("\"e\":1000.25,\"n\":2000000.123"), std::string::npos) << joined(made);
    EXPECT_NE(joined(made).find("\"level\":123.456"), std::string::npos);
}

TEST(Entries, NothingGetsASecondMeaning) {
    const auto book = book_of(
        "{\"kind\":\"benchmark\",\"point\":\"BM1\",\"level\":50}\n{\"kind\":\"place\",\"point\":\"BM1\","
        "\"e\":10,\"n\":20}\n"
        "{\"kind\":\"line\",\"name\":\"D1\"}\n");
    Handover same;
    same.points = {point("BM1", 10, 20, 50)};
    const Prepared again = entries_of(same, book.get(), {});
    EXPECT_EQ(again.lines.size(), 1U);
    EXPECT_EQ(again.findings.at(0).code, Code::ImportSame);
    Handover moved;
    moved.points = {point("BM1", 10, 20.001, 50)};
    const Prepared other = entries_of(moved, book.get(), {});
    EXPECT_TRUE(other.lines.empty());
    EXPECT_EQ(one_line(other.findings.at(0)),
              "line 7, BM1: the book has it at another place than the file; rename it in the file, or import "
              "into a "
              "new book; nothing has been imported");
    Handover raised;
    raised.points = {point("BM1", 10, 20, 50.01)};
    EXPECT_EQ(entries_of(raised, book.get(), {}).findings.at(0).message,
              "the book has another level for it than the file");
    Handover lines;
    lines.lines.resize(1);
    lines.lines[0].name = "D1";
    EXPECT_EQ(entries_of(lines, book.get(), {}).findings.at(0).message, "the book has a line of that name");
}

// The book's own answer must not come back as an observation.
TEST(Entries, MeasuredLevelsOfKnownPointsArePassedOver) {
    const auto book = book_of(
        "{\"kind\":\"instrument\",\"name\":\"L\",\"type\":\"optical-level\"}\n"
        "{\"kind\":\"setup\",\"name\":\"S\",\"instrument\":\"L\"}\n{\"kind\":\"reading\",\"point\":\"P\","
        "\"staff\":1}\n");
    Handover from;
    from.points = {point("P", 1, 2, 99, Standing::Measured)};
    const Prepared made = entries_of(from, book.get(), {});
    EXPECT_EQ(joined(made).find("benchmark"), std::string::npos);
    EXPECT_NE(joined(made).find("\"kind\":\"place\",\"point\":\"P\""), std::string::npos);
}

TEST(Entries, ADrainWithChambersReadsAsItWas) {
    Handover from;
    Line line;
    line.name = "D1";
    line.use = "drain";
    line.plan = {{0, 0}, {0, 60}};
    line.profile = {{0, 50, 50, 0}, {30, 49.7, 49.6, 0}, {60, 49.3, 49.3, 0}};
    line.pipes = {{0, 30, 0.15, 0.01}, {30, 60, 0.15, unknown}};
    line.chambers = {{"MH1", 0, 50, 50, 52, 1.2}, {"MH2", 30, 49.7, 49.6, unknown, unknown}};
    line.flow = Line::Flow::With;
    from.lines = {line};
    const Prepared made = entries_of(from, nullptr, {});
    expect_clean(made);
    EXPECT_NE(joined(made).find("\"profile\":[{\"ch\":0,\"level\":50},{\"ch\":60,\"level\":49.3}]"),
              std::string::npos)
        << joined(made);
    EXPECT_NE(joined(made).find("{\"name\":\"MH2\",\"ch\":30,\"in\":49.7,\"out\":49.6}"), std::string::npos);
}

// Four corners of a square whose diagonal runs the other way than the book's own rule would have it.
TEST(Entries, SurfacesKeepTheTrianglesOfTheFile) {
    Handover from;
    Surface ground;
    ground.name = "G";
    ground.spots = {{"1", 0, 0, 1}, {"2", 10, 0, 1}, {"3", 12, 11, 2}, {"4", 0, 10, 2}};
    ground.faces = {{0, 1, 2}, {0, 2, 3}};
    Surface other = ground;
    other.name = "H";
    other.faces = {{0, 1, 3}, {1, 2, 3}};
    from.surfaces = {ground, other};
    from.points = {point("corner", 0, 0, 1)};
    const Prepared made = entries_of(from, nullptr, {});
    expect_clean(made);
    const std::string text = joined(made);
    EXPECT_NE(text.find("\"points\":[\"corner\",\"G 2\",\"G 3\",\"G 4\"]"), std::string::npos) << text;
    const bool first = text.find("\"breaklines\":[[\"corner\",\"G 3\"]]") != std::string::npos;
    const bool second = text.find("\"breaklines\":[[\"G 2\",\"G 4\"]]") != std::string::npos;
    EXPECT_NE(first, second) << text;
}

TEST(Entries, FacesThatAreNoSurfaceAreRefused) {
    Handover from;
    Surface ground;
    ground.name = "G";
    ground.line = 9;
    ground.spots = {{"1", 0, 0, 1}, {"2", 10, 0, 1}, {"3", 10, 10, 2}, {"4", 0, 10, 2}, {"5", 5, -5, 0}};
    ground.faces = {{0, 1, 2}, {0, 1, 3}, {0, 4, 1}};
    from.surfaces = {ground};
    EXPECT_EQ(entries_of(from, nullptr, {}).findings.at(0).message,
              "its triangles are no surface: three of them share a side");
}

TEST(Entries, WhatIsLongerThanAnEntryIsRefused) {
    Handover from;
    Line line;
    line.name = "A";
    for (int i = 0; i < 4000; ++i) line.plan.push_back({i + 0.1234567, 1e6 + i % 2 + 0.1234567});
    from.lines = {line};
    const Prepared made = entries_of(from, nullptr, {});
    EXPECT_TRUE(made.lines.empty());
    EXPECT_EQ(made.findings.at(0).code, Code::ImportTooLarge);
}

}  // namespace
}  // namespace fallwright::handover
