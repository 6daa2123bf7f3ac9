#include "exchange/landxml/landxml.h"

#include <gtest/gtest.h>

#include <random>

#include "exchange/handover/network.h"

namespace fallwright::landxml {
namespace {

using handover::Handover;
using handover::Line;
using handover::Standing;

constexpr double tenth_of_a_millimetre = 0.0001;

std::string file(const std::string& parts, const std::string& units = R"(<Metric linearUnit="meter"/>)") {
    return "<?xml version=\"1.0\"?>\n<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" "
           "version=\"1.2\">\n"
           "<Units>" +
           units + "</Units>\n" + parts + "\n</LandXML>\n";
}

// The first error, as people see it; empty where the file is taken.
std::string refused(const std::string& parts, const std::string& units = R"(<Metric linearUnit="meter"/>)") {
    const Read read = read_landxml(file(parts, units));
    for (const Finding& each : read.findings) {
        if (catalogue(each.code).severity != Severity::Error) continue;
        std::string all;
        for (const std::string& about : each.about) all += about + ", ";
        return all + each.message;
    }
    return "";
}

Handover taken(const std::string& text) {
    Read read = read_landxml(text);
    for (const Finding& each : read.findings)
        EXPECT_NE(catalogue(each.code).severity, Severity::Error) << one_line(each);
    return std::move(read.found);
}

std::string alignment(const std::string& geometry, const std::string& more = "") {
    return "<Alignments><Alignment name=\"A\" length=\"0\" staStart=\"100\"><CoordGeom>" + geometry +
           "</CoordGeom>" + more + "</Alignment></Alignments>";
}

std::string profile(const std::string& corners) {
    return "<Alignments><Alignment name=\"A\" length=\"0\" staStart=\"0\"><Profile><ProfAlign name=\"p\">\n" +
           corners + "</ProfAlign></Profile></Alignment></Alignments>";
}

TEST(LandXml, PointsStandNorthBeforeEast) {
    const Handover found = taken(file(
        R"(<CgPoints><CgPoint name="BM1" pntSurv="control" desc="bolt">313177.270 651409.903 47.655</CgPoint>)"
        R"(<CgPoints><CgPoint name="2">10 20</CgPoint><CgPoint name="3" state="proposed">1 2 3</CgPoint></CgPoints>)"
        R"(</CgPoints>)"));
    ASSERT_EQ(found.points.size(), 3U);
    EXPECT_EQ(found.points[0].e, 651409.903);
    EXPECT_EQ(found.points[0].n, 313177.270);
    EXPECT_EQ(found.points[0].level, 47.655);
    EXPECT_EQ(found.points[0].note, "bolt");
    EXPECT_EQ(found.points[0].line, 4U);
    EXPECT_EQ(found.points[0].standing, Standing::Held);
    EXPECT_FALSE(handover::known(found.points[1].level));
    EXPECT_EQ(found.points[2].standing, Standing::Wanted);
}

// Feet of 0.3048 m; the survey foot is 1200/3937 m (its definition of 1893).
TEST(LandXml, UnitsAreHonoured) {
    const std::string point = R"(<CgPoints><CgPoint name="P">1000 2000000 100</CgPoint></CgPoints>)";
    EXPECT_DOUBLE_EQ(taken(file(point, R"(<Imperial linearUnit="foot"/>)")).points[0].e, 609600);
    const Read survey =
        read_landxml(file(point, R"(<Imperial linearUnit="USSurveyFoot" elevationUnit="feet"/>)"));
    EXPECT_NEAR(survey.found.points[0].e, 2000000.0 * 1200 / 3937, 1e-9);
    EXPECT_DOUBLE_EQ(survey.found.points[0].level, 30.48);
    ASSERT_EQ(survey.findings.size(), 1U);
    EXPECT_EQ(survey.findings[0].code, Code::ImportConverted);
    EXPECT_EQ(refused(point, R"(<Metric linearUnit="cubit"/>)"),
              "line 3, Metric, linearUnit=\"cubit\" is not taken");
    EXPECT_EQ(refused(point, ""), "line 2, LandXML, the file does not say what its lengths are in");
    EXPECT_EQ(refused(point, "<Metric/>"), "line 3, Metric, linearUnit is missing");
}

TEST(LandXml, LinesAndCurvesBecomeAPlanAsLong) {
    // A quarter circle of radius 20 to the right, then straight on.
    const Handover found = taken(
        file(alignment("<Line><Start>0 0</Start><End>50 0</End></Line>"
                       R"(<Curve rot="cw"><Start>50 0</Start><Center>50 20</Center><End>70 20</End></Curve>)"
                       "<IrregularLine><Start>70 20</Start><End>70 60</End><PntList2D>70 20 70 "
                       "40</PntList2D></IrregularLine>")));
    ASSERT_EQ(found.lines.size(), 1U);
    const Line& line = found.lines[0];
    EXPECT_EQ(line.start, 100);
    EXPECT_NEAR(line.plan.back().e, 60, 1e-12);
    EXPECT_NEAR(line.plan.back().n, 70, 1e-12);
    double length = 0;
    for (std::size_t i = 1; i < line.plan.size(); ++i)
        length += std::hypot(line.plan[i].e - line.plan[i - 1].e, line.plan[i].n - line.plan[i - 1].n);
    EXPECT_NEAR(length, 50 + 10 * 3.14159265358979 + 40, 1e-5);
    const auto middle = handover::along(line, 100 + 50 + 5 * 3.14159265358979);
    EXPECT_NEAR(middle.e, 20 - 20 * std::sqrt(0.5), 0.001);
    EXPECT_NEAR(middle.n, 50 + 20 * std::sqrt(0.5), 0.001);
}

TEST(LandXml, WhatAnAlignmentCannotBeIsRefused) {
    EXPECT_EQ(refused(alignment("<Spiral><Start>0 0</Start></Spiral>")),
              "line 4, Spiral, a Spiral is not taken");
    EXPECT_EQ(refused(alignment("<Line><Start>0 0</Start><End>5 0</End></Line>"
                                "<Line><Start>6 0</Start><End>9 0</End></Line>")),
              "line 4, Line, it begins 1 m from where the piece before it ends");
    EXPECT_EQ(
        refused(alignment(R"(<Curve rot="cw"><Start>5 0</Start><Center>0 0</Center><End>0 6</End></Curve>)")),
        "line 4, Curve, Start and End do not lie on one circle about Center");
    EXPECT_EQ(refused(alignment("<Line><Start>0 0</Start></Line>")), "line 4, Line, it has no End");
    EXPECT_EQ(refused(alignment("<Line><Start>0</Start><End>1 1</End></Line>")),
              "line 4, Start, its content is not north, east and level");
    EXPECT_EQ(refused(alignment("<Line><Start>0 0</Start><End>5 0</End></Line>", "<StaEquation/>")),
              "line 4, StaEquation, stations of the alignment jump");
    EXPECT_EQ(refused(alignment("<Line><Start>0 1e12</Start><End>5 0</End></Line>")),
              "line 4, Start, it lies farther away than any job");
}

TEST(LandXml, ProfilesWithParabolasAndSteps) {
    const Handover found =
        taken(file(profile("<PVI>0 50</PVI>\n<ParaCurve length=\"40\">60 51.2</ParaCurve>\n"
                           "<PVI>100 50.4</PVI><PVI>100 50.1</PVI><PVI>150 49</PVI>")));
    const auto& corners = found.lines.at(0).profile;
    ASSERT_EQ(corners.size(), 4U);
    EXPECT_EQ(corners[1].curve, 40);
    EXPECT_EQ(corners[2].before, 50.4);
    EXPECT_EQ(corners[2].after, 50.1);
    // The middle of a parabola lies (g2 - g1) L / 8 over its corner: any textbook of route surveying.
    EXPECT_NEAR(handover::profile_level(found.lines[0], 60, true), 51.2 + (-0.02 - 0.02) * 40 / 8, 1e-12);
    EXPECT_EQ(refused(profile("<PVI>0 50</PVI>\n<CircCurve length=\"4\" radius=\"9\">60 51</CircCurve>")),
              "line 6, CircCurve, a CircCurve is not taken");
    EXPECT_EQ(refused(profile("<PVI>0 50</PVI>\n<PVI>-1 51</PVI>")),
              "line 6, PVI, its station lies before the one above it");
    EXPECT_EQ(refused(profile("<PVI>0 50</PVI>\n<ParaCurve>9 51</ParaCurve>")),
              "line 6, ParaCurve, it has no length");
    EXPECT_EQ(refused(profile("<PVI>zero fifty</PVI>")),
              "line 5, PVI, its content is not a station and a level");
    EXPECT_EQ(refused(profile("")), "line 4, ProfAlign p, it has no PVI");
}

// A network that branches: two heads that meet, and one pipe on from there.
std::string network(const std::string& invert = R"(<Invert elev="49.2" flowDir="out" refPipe="P3"/>)") {
    return R"(<PipeNetworks><PipeNetwork name="N" pipeNetType="storm"><Structs>
<Struct name="A" elevRim="52"><Center>0 0</Center><CircStruct diameter="1.2"/><Invert elev="50" flowDir="out" refPipe="P1"/></Struct>
<Struct name="B"><Center>30 10</Center><CircStruct diameter="1.05"/><Invert elev="49.8" flowDir="out" refPipe="P2"/></Struct>
<Struct name="C"><Center>30 0</Center><CircStruct diameter="1.5"/><Invert elev="49.5" flowDir="in" refPipe="P1"/><Invert elev="49.6" flowDir="in" refPipe="P2"/>)" +
           invert + R"(</Struct>
<Struct name="D"><Center>60 0</Center><Connection/><Invert elev="48.9" flowDir="in" refPipe="P3"/></Struct>
</Structs><Pipes>
<Pipe name="P1" refStart="A" refEnd="C"><CircPipe diameter="225" thickness="25"/></Pipe>
<Pipe name="P2" refStart="C" refEnd="B"><CircPipe diameter="150"/></Pipe>
<Pipe name="P3" refStart="C" refEnd="D"><CircPipe diameter="300"/></Pipe>
</Pipes></PipeNetwork></PipeNetworks>)";
}
const std::string metric = R"(<Metric linearUnit="meter" diameterUnit="millimeter"/>)";

TEST(LandXml, NetworksBecomeLinesTheWayTheWaterRuns) {
    const Handover found = taken(file(network(), metric));
    ASSERT_EQ(found.lines.size(), 2U);
    const Line& trunk = found.lines[0];
    EXPECT_EQ(trunk.name, "N 1");
    EXPECT_EQ(trunk.use, "drain");
    ASSERT_EQ(trunk.pipes.size(), 2U);
    EXPECT_DOUBLE_EQ(trunk.pipes[0].bore, 0.225);
    EXPECT_DOUBLE_EQ(trunk.pipes[0].wall, 0.025);
    EXPECT_EQ(trunk.pipes[1].from, 30);
    EXPECT_EQ(trunk.pipes[1].to, 60);
    ASSERT_EQ(trunk.chambers.size(), 3U);
    EXPECT_EQ(trunk.chambers[0].cover, 52);
    EXPECT_EQ(trunk.chambers[1].in, 49.5);
    EXPECT_EQ(trunk.chambers[1].out, 49.2);
    EXPECT_EQ(trunk.chambers[1].size, 1.5);
    // P2 is written from C to B; its inverts say that the water runs from B to C.
    const Line& branch = found.lines[1];
    EXPECT_EQ(branch.plan.front().e, 10);
    EXPECT_EQ(branch.profile.front().after, 49.8);
    EXPECT_EQ(branch.profile.back().before, 49.6);
}

TEST(LandXml, WhatANetworkCannotBeIsRefused) {
    EXPECT_EQ(refused(network(""), metric), "line 12, Pipe P3, Struct C gives no Invert for it");
    std::string wrong = network();
    wrong.replace(wrong.find("refEnd=\"D\""), 10, "refEnd=\"E\"");
    EXPECT_EQ(refused(wrong, metric), "line 12, Pipe P3, refEnd=\"E\" names no Struct");
    wrong = network();
    wrong.replace(wrong.find("elev=\"50\""), 9, "elev=\"up\"");
    EXPECT_EQ(refused(wrong, metric), "line 5, Invert, elev=\"up\" is no length");
}

std::string surface(const std::string& faces) {
    return R"(<Surfaces><Surface name="G"><Definition surfType="TIN"><Pnts><P id="1">0 0 1</P><P id="2">0 10 1</P>)"
           R"(<P id="3">10 10 2</P><P id="7">10 0 2</P></Pnts><Faces>)" +
           faces + "</Faces></Definition></Surface></Surfaces>";
}

TEST(LandXml, SurfacesHaveTheirTrianglesTheSameWayRound) {
    const Handover found = taken(file(surface(R"(<F>1 2 3</F><F>1 7 3</F><F i="1">1 2 7</F>)")));
    ASSERT_EQ(found.surfaces.size(), 1U);
    EXPECT_EQ(found.surfaces[0].spots[1].e, 10);
    ASSERT_EQ(found.surfaces[0].faces.size(), 2U);
    EXPECT_EQ(found.surfaces[0].faces[0], (std::array<std::int32_t, 3>{0, 1, 2}));
    EXPECT_EQ(found.surfaces[0].faces[1], (std::array<std::int32_t, 3>{0, 2, 3}));
    EXPECT_EQ(refused(surface("<F>1 2 9</F>")), "line 4, F, there is no point 9");
    EXPECT_EQ(refused(surface("<F>1 2</F>")), "line 4, F, its content is not three points");
    EXPECT_EQ(refused(surface("")), "line 4, Surface G, it has no triangles");
}

TEST(LandXml, OtherFilesAreRefused) {
    EXPECT_EQ(read_landxml("<svg/>").findings.at(0).message, "the file is svg, not LandXML");
    EXPECT_EQ(read_landxml("<LandXML>").findings.at(0).code, Code::ImportXml);
    EXPECT_EQ(refused(""), "the file holds no points, alignments, pipes or surfaces");
}

// What a line keeps on the way out and in again.
void expect_same(const Line& a, const Line& b) {
    EXPECT_EQ(a.name, b.name);
    ASSERT_EQ(a.plan.size(), b.plan.size());
    for (std::size_t i = 0; i < a.plan.size(); ++i) {
        EXPECT_NEAR(a.plan[i].e, b.plan[i].e, tenth_of_a_millimetre);
        EXPECT_NEAR(a.plan[i].n, b.plan[i].n, tenth_of_a_millimetre);
    }
    ASSERT_EQ(a.profile.size(), b.profile.size());
    for (std::size_t i = 0; i < a.profile.size(); ++i) {
        EXPECT_NEAR(a.profile[i].ch, b.profile[i].ch, tenth_of_a_millimetre);
        EXPECT_NEAR(a.profile[i].before, b.profile[i].before, tenth_of_a_millimetre);
        EXPECT_NEAR(a.profile[i].after, b.profile[i].after, tenth_of_a_millimetre);
        EXPECT_NEAR(a.profile[i].curve, b.profile[i].curve, tenth_of_a_millimetre);
    }
    ASSERT_EQ(a.pipes.size(), b.pipes.size());
    for (std::size_t i = 0; i < a.pipes.size(); ++i) {
        EXPECT_NEAR(a.pipes[i].from, b.pipes[i].from, tenth_of_a_millimetre);
        EXPECT_NEAR(a.pipes[i].to, b.pipes[i].to, tenth_of_a_millimetre);
        EXPECT_NEAR(a.pipes[i].bore, b.pipes[i].bore, tenth_of_a_millimetre);
    }
    ASSERT_EQ(a.chambers.size(), b.chambers.size());
    for (std::size_t i = 0; i < a.chambers.size(); ++i) {
        EXPECT_EQ(a.chambers[i].name, b.chambers[i].name);
        EXPECT_NEAR(a.chambers[i].ch, b.chambers[i].ch, tenth_of_a_millimetre);
        EXPECT_NEAR(a.chambers[i].cover, b.chambers[i].cover, tenth_of_a_millimetre);
        EXPECT_NEAR(a.chambers[i].size, b.chambers[i].size, tenth_of_a_millimetre);
    }
}

Handover drawn(std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
    };
    Handover made;
    made.unit = random() % 2 == 0 ? Unit::Metre : Unit::Foot;
    for (int i = 0; i < 5; ++i) {
        handover::Point point;
        point.name = "p" + std::to_string(i) + " <&\"";
        point.e = between(1e5, 7e5);
        point.n = between(1e5, 5e6);
        if (i > 0) point.level = between(-10, 900);
        if (i > 1) point.sd = between(0.0001, 0.02);
        point.standing = i == 1 ? Standing::Held : i == 4 ? Standing::Wanted : Standing::Measured;
        made.points.push_back(point);
    }
    Line line;
    line.name = "D1";
    line.use = "drain";
    line.start = between(-50, 500);
    line.flow = random() % 2 == 0 ? Line::Flow::With : Line::Flow::Against;
    line.plan.push_back({between(1e5, 7e5), between(1e5, 5e6)});
    double length = 0;
    for (int i = 0; i < 4; ++i) {
        const double de = between(10, 60), dn = between(-30, 30);
        line.plan.push_back({line.plan.back().e + de, line.plan.back().n + dn});
        length += std::hypot(de, dn);
    }
    for (int i = 0; i <= 3; ++i) {
        const double ch = line.start + length * i / 3, level = between(20, 30);
        const bool inside = i > 0 && i < 3;
        line.profile.push_back({ch, level, inside ? level - between(0, 0.2) : level, 0});
        line.chambers.push_back(
            {"MH" + std::to_string(i), ch, level, level, between(31, 33), between(0.9, 1.5)});
    }
    for (int i = 0; i < 3; ++i)
        line.pipes.push_back({line.profile[static_cast<std::size_t>(i)].ch,
                              line.profile[static_cast<std::size_t>(i) + 1].ch, 0.15, 0.01});
    made.lines.push_back(line);
    Line road;
    road.name = "R1";
    road.profile = {{0, 50, 50, 0}, {80, 51, 51, 30}, {200, 48, 48, 0}};
    made.lines.push_back(road);
    return made;
}

TEST(LandXml, WrittenAndReadAgainIsTheSameToATenthOfAMillimetre) {
    std::mt19937 random(20260504);
    for (int round = 0; round < 50; ++round) {
        const Handover from = drawn(random);
        const Written written = write_landxml(from, "2026-05-04T08:30:00Z");
        const Handover back = taken(written.text);
        ASSERT_EQ(back.points.size(), from.points.size());
        for (std::size_t i = 0; i < from.points.size(); ++i) {
            EXPECT_EQ(back.points[i].name, from.points[i].name);
            EXPECT_EQ(back.points[i].standing, from.points[i].standing);
            EXPECT_NEAR(back.points[i].e, from.points[i].e, tenth_of_a_millimetre);
            EXPECT_NEAR(back.points[i].n, from.points[i].n, tenth_of_a_millimetre);
            if (handover::known(from.points[i].level))
                EXPECT_NEAR(back.points[i].level, from.points[i].level, tenth_of_a_millimetre);
            if (from.points[i].standing == Standing::Measured && handover::known(from.points[i].sd))
                EXPECT_NEAR(back.points[i].sd, from.points[i].sd, tenth_of_a_millimetre / 10);
        }
        ASSERT_EQ(back.lines.size(), 2U);
        for (std::size_t i = 0; i < 2; ++i) expect_same(from.lines[i], back.lines[i]);
        EXPECT_EQ(back.lines[0].flow, from.lines[0].flow);
        EXPECT_EQ(back.unit, from.unit);
    }
}

// Any piece of a file, and any byte of it changed, is taken or refused: nothing else.
TEST(LandXml, TornAndChangedFilesAreTakenOrRefused) {
    std::mt19937 random(7);
    const std::string whole = write_landxml(drawn(random), "2026-05-04").text;
    for (std::size_t end = 0; end < whole.size(); end += 37) {
        const Read read = read_landxml(std::string_view(whole).substr(0, end));
        ASSERT_FALSE(read.findings.empty());
    }
    for (int round = 0; round < 300; ++round) {
        std::string changed = whole;
        for (int i = 0; i < 3; ++i)
            changed[random() % changed.size()] = static_cast<char>(1 + random() % 255);
        (void)read_landxml(changed);
    }
}

}  // namespace
}  // namespace fallwright::landxml
