#include "where/plan_line.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fallwright {

namespace {

// North for 30 m, then east for 40 m; chainage 100 at its first point.
LineEntry corner() {
    LineEntry line;
    line.start = 100;
    line.plan = {{10, 20}, {10, 50}, {50, 50}};
    return line;
}

void expect_spot(const Spot& spot, double e, double n) {
    EXPECT_TRUE(spot.known);
    EXPECT_NEAR(spot.e, e, 1e-12);
    EXPECT_NEAR(spot.n, n, 1e-12);
}

Spot grid(double e, double n) {
    return {true, 0, e, n};
}

}  // namespace

TEST(PlanLine, OffsetsAreToTheRightOfChainage) {
    const PlanLine line(corner(), 0);
    expect_spot(line.at(110, 0), 10, 30);
    expect_spot(line.at(110, 2), 12, 30);
    expect_spot(line.at(140, 2), 20, 48);
    expect_spot(line.at(140, -2), 20, 52);
    EXPECT_EQ(line.at(110, 0).frame, 0);
}

TEST(PlanLine, AVertexBelongsToTheSegmentBeforeIt) {
    const PlanLine line(corner(), 0);
    expect_spot(line.at(130, 5), 15, 50);
    expect_spot(line.at(130 + 1e-9, 5), 10 + 1e-9, 45);
}

TEST(PlanLine, BeyondItsEndsTheEndSegmentsGoOn) {
    const PlanLine line(corner(), 0);
    expect_spot(line.at(90, 1), 11, 10);
    expect_spot(line.at(-100, 0), 10, -180);
    expect_spot(line.at(180, 1), 60, 49);
}

TEST(PlanLine, ChainageIsMeasuredAlongThePlan) {
    LineEntry line;
    line.plan = {{0, 0}, {3, 4}, {6, 0}};
    expect_spot(PlanLine(line, 0).at(5, 0), 3, 4);
    expect_spot(PlanLine(line, 0).at(10, 0), 6, 0);
    expect_spot(PlanLine(line, 0).at(7.5, 1), 4.5 - 0.8, 2 - 0.6);
}

TEST(PlanLine, WithoutAPlanItHasAFrameOfItsOwn) {
    LineEntry line;
    line.start = 100;
    const PlanLine third(line, 2);
    expect_spot(third.at(25, -3), -3, 25);
    EXPECT_EQ(third.at(25, -3).frame, 3);
    const Heading along = third.nearest_heading(third.at(7, 7));
    EXPECT_TRUE(along.known);
    EXPECT_EQ(along.e, 0);
    EXPECT_EQ(along.n, 1);
}

TEST(PlanLine, TheHeadingIsThatOfTheSegmentNearestTheSpot) {
    const PlanLine line(corner(), 0);
    EXPECT_EQ(line.nearest_heading(grid(12, 30)).n, 1);
    EXPECT_EQ(line.nearest_heading(grid(30, 45)).e, 1);
    EXPECT_EQ(line.nearest_heading(grid(100, 0)).e, 1);
    EXPECT_EQ(line.nearest_heading(grid(0, -100)).n, 1);
    // On the bisector of the corner both are as near: the segment before.
    EXPECT_EQ(line.nearest_heading(grid(20, 40)).n, 1);
    EXPECT_EQ(line.nearest_heading(grid(10, 50)).n, 1);
}

TEST(PlanLine, NoHeadingForASpotInAnotherFrame) {
    const PlanLine line(corner(), 0);
    EXPECT_FALSE(line.nearest_heading({true, 1, 0, 0}).known);
    EXPECT_FALSE(line.nearest_heading({}).known);
    // All segments have one direction: where the spot is does not matter, but another frame does.
    LineEntry straight;
    straight.plan = {{0, 0}, {30, 40}};
    EXPECT_NEAR(PlanLine(straight, 0).nearest_heading({}).e, 0.6, 1e-15);
    EXPECT_FALSE(PlanLine(straight, 0).nearest_heading({true, 2, 0, 0}).known);
}

}  // namespace fallwright
