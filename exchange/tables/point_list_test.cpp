#include "exchange/tables/point_list.h"

#include <gtest/gtest.h>

namespace fallwright::tables {
namespace {

ListOptions options(Levels levels = Levels::Unsaid, const std::string& line = "") {
    ListOptions made;
    made.levels = levels;
    made.sheet.line = line;
    return made;
}

std::string refused(const std::string& text, const ListOptions& wish = {}) {
    const ReadList read = read_point_list(text, wish);
    return read.findings.empty() ? "" : one_line(read.findings.front());
}

TEST(PointList, PointsWithTheirUnitsAndMarks) {
    const ReadList read = read_point_list(
        "Punkt;Rechtswert;Hochwert;Known level (ft)\nA;651409,903;313177,27;100\n", options());
    ASSERT_TRUE(read.findings.empty()) << one_line(read.findings[0]);
    ASSERT_EQ(read.found.points.size(), 1U);
    EXPECT_EQ(read.found.points[0].e, 651409.903);
    EXPECT_EQ(read.found.points[0].n, 313177.27);
    EXPECT_DOUBLE_EQ(read.found.points[0].level, 30.48);
    EXPECT_EQ(read.found.points[0].standing, handover::Standing::Held);
    EXPECT_EQ(read.found.points[0].line, 2U);
}

TEST(PointList, WhetherLevelsAreKnownOrWantedIsNeverGuessed) {
    const std::string list = "point,east,north,level\nA,1,2,50\n";
    EXPECT_EQ(refused(list),
              "row 1, column D, level: it is not said whether these levels are known or wanted; say --levels "
              "known or "
              "--levels wanted, or name the column known level or design level");
    EXPECT_EQ(read_point_list(list, options(Levels::Known)).found.points.at(0).standing,
              handover::Standing::Held);
    EXPECT_EQ(read_point_list(list, options(Levels::Wanted)).found.points.at(0).standing,
              handover::Standing::Wanted);
    const ReadList measured =
        read_point_list("point,east,north,level,sd\nA,1,2,50,0.002\nB,1,3,50,0\n", options());
    EXPECT_EQ(measured.found.points.at(0).standing, handover::Standing::Measured);
    EXPECT_EQ(measured.found.points.at(0).sd, 0.002);
    EXPECT_EQ(measured.found.points.at(1).standing, handover::Standing::Held);
    EXPECT_EQ(
        read_point_list("point,east,north,design level\nA,1,2,50\n", options()).found.points.at(0).standing,
        handover::Standing::Wanted);
}

TEST(PointList, WantedLevelsAlongPointsMakeALine) {
    const ReadList read = read_point_list(
        "point,east,north,design level\nA,0,0,50\nB,3,4,50.1\nC,3,14,50.3\n", options(Levels::Unsaid, "K1"));
    ASSERT_EQ(read.found.lines.size(), 1U);
    const handover::Line& line = read.found.lines[0];
    EXPECT_EQ(line.name, "K1");
    ASSERT_EQ(line.profile.size(), 3U);
    EXPECT_EQ(line.profile[1].ch, 5);
    EXPECT_EQ(line.profile[2].ch, 15);
    EXPECT_EQ(line.profile[2].before, 50.3);
}

TEST(PointList, SettingOutByChainage) {
    const std::string list = "peg,chainage,offset,level\n1,0,0,50\n2,10,0,49.9\n3,10,2.5,49.85\n";
    EXPECT_EQ(refused(list, options(Levels::Wanted)),
              "row 1, column B, chainage: chainages belong to a line, and none is named; name it: --line L1");
    const ReadList read = read_point_list(list, options(Levels::Wanted, "D1"));
    ASSERT_EQ(read.found.lines.size(), 1U);
    ASSERT_EQ(read.found.lines[0].profile.size(), 2U);
    EXPECT_EQ(read.found.lines[0].profile[1].before, 49.9);
    ASSERT_EQ(read.found.points.size(), 3U);
    EXPECT_EQ(read.found.points[2].on, "D1");
    EXPECT_EQ(read.found.points[2].off, 2.5);
    EXPECT_EQ(read.findings.at(0).code, Code::ImportNotUsed);
    EXPECT_EQ(refused("chainage,level\n10,50\n5,49\n", options(Levels::Wanted, "D1")),
              "row 3: its chainage does not lie beyond the one above it; put the rows in order of chainage; "
              "nothing "
              "has been imported");
}

TEST(PointList, WhatCannotBeTakenIsRefused) {
    EXPECT_EQ(
        refused("point,x,y\nA,1,2\n"),
        "row 1, column B, x: x and y do not say which of them points north; name the columns east and north");
    EXPECT_EQ(refused("east,north\n1,2\n"), "row 1: no column names the points; add a column point");
    EXPECT_EQ(
        refused("point,east,north\nA,1,\n"),
        "row 2, column C, north: north is missing; correct the cell; write numbers like 1.432 or 1,432");
    EXPECT_EQ(refused("point,east,north\nA,one,2\n"),
              "row 2, column B, east: 'one' is no number that can be taken; correct the cell; write numbers "
              "like 1.432 "
              "or 1,432");
    EXPECT_EQ(refused("point,east,north\n"),
              "no point stands below the names of the columns; export the rows of the level book with their "
              "header");
    EXPECT_EQ(refused(std::string("point,east,north\nA\0,1,2\n", 24)).substr(0, 25),
              "the text holds zero bytes");
}

// A level book is none, whatever else stands in it.
TEST(PointList, LevelBooksAreNone) {
    EXPECT_FALSE(is_point_list("point,bs,is,fs,rl,chainage\n", {}));
    EXPECT_FALSE(is_point_list("nothing,of,this\n", {}));
    EXPECT_TRUE(is_point_list("a title\n\npoint;easting;northing\n", {}));
    EXPECT_TRUE(is_point_list("Ch,Design level\n", {}));
}

// Our own guards come off.
TEST(PointList, GuardedNamesAreTheirOwnAgain) {
    const ReadList read = read_point_list("point,east,north\r\n'=A1,1,2\r\n", options());
    EXPECT_EQ(read.found.points.at(0).name, "=A1");
}

}  // namespace
}  // namespace fallwright::tables
