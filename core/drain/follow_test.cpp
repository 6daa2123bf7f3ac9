#include "drain/follow.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

// Whole roads with every choice of breaks are held against SciPy's linprog in tests/drain.

namespace fallwright::drain {

namespace {

constexpr double same = 1e-9;

FollowLimits limits(double least_fall, int grades = 1) {
    FollowLimits limits;
    limits.least_fall = least_fall;
    limits.grades = grades;
    return limits;
}

// Area between the highest invert and the pipe.
double area_under(const std::vector<double>& x, const std::vector<double>& y) {
    double area = 0;
    for (std::size_t i = 1; i < x.size(); ++i) area += (x[i] - x[i - 1]) * (y[i] + y[i - 1]) / 2;
    return area;
}

double at(const std::vector<double>& x, const std::vector<double>& y, double where) {
    std::size_t i = 1;
    while (i + 1 < x.size() && x[i] < where) ++i;
    return y[i - 1] + (y[i] - y[i - 1]) * (where - x[i - 1]) / (x[i] - x[i - 1]);
}

// A road by whole centimetres, its breaks some of the places where it was read.
FollowRoad any_road() {
    FollowRoad road;
    const auto places = *rc::gen::inRange(2, 12);
    double x = 0, level = 50;
    for (int i = 0; i < places; ++i) {
        road.x.push_back(x);
        road.highest.push_back(level);
        if (i > 0 && *rc::gen::arbitrary<bool>()) road.breaks.push_back(x);
        x += *rc::gen::inRange(100, 2000) / 100.0;
        level += *rc::gen::inRange(-60, 50) / 100.0;
    }
    return road;
}

FollowLimits any_limits() {
    FollowLimits limits;
    limits.least_fall = *rc::gen::inRange(0, 30) / 1000.0;
    if (*rc::gen::arbitrary<bool>())
        limits.steepest_fall = limits.least_fall + *rc::gen::inRange(0, 50) / 1000.0;
    limits.grades = *rc::gen::inRange(1, 5);
    return limits;
}

}  // namespace

// By hand: a road that falls 1 in 50 takes a pipe of 1 in 80 and steeper parallel to it: no dig at all.
TEST(Follow, ASteepRoadIsFollowed) {
    const FollowRoad road{{0, 50, 100}, {10, 9, 8}, {}};
    const Followed followed = follow(road, limits(1.0 / 80));
    ASSERT_TRUE(followed.found);
    EXPECT_TRUE(followed.proved);
    EXPECT_EQ(followed.x, (std::vector<double>{0, 100}));
    EXPECT_NEAR(followed.y[0], 10, same);
    EXPECT_NEAR(followed.y[1], 8, same);
    EXPECT_NEAR(followed.dig, 0, same);
    EXPECT_NEAR(followed.price_of(Holder::Cover), 100, same);  // 1 m more cover: 1 m deeper all along
    EXPECT_NEAR(followed.price_of(Holder::LeastFall), 0, same);
}

// By hand: under a level road a pipe of 1 in 100 begins at the highest invert and digs a triangle of 100 x 1
// / 2.
TEST(Follow, ALevelRoadIsDugByTheLeastFall) {
    const FollowRoad road{{0, 40, 100}, {10, 10, 10}, {40}};
    const Followed followed = follow(road, limits(0.01, 2));
    ASSERT_TRUE(followed.found);
    EXPECT_NEAR(followed.y.front(), 10, same);
    EXPECT_NEAR(followed.y.back(), 9, same);
    EXPECT_NEAR(followed.dig, 50, same);
    EXPECT_NEAR(followed.price_of(Holder::LeastFall), 5000, 1e-6);  // 100^2 / 2 for each unit of fall
}

// By hand: a brow, flat for 50 m and then steep. One grade must pass under the flat part's end; two follow
// both.
TEST(Follow, ASecondGradeSavesWhereTheRoadBends) {
    const FollowRoad road{{0, 50, 100}, {10, 9.5, 6}, {50}};
    const Followed one = follow(road, limits(0.01));
    const Followed two = follow(road, limits(0.01, 2));
    ASSERT_TRUE(one.found && two.found);
    EXPECT_NEAR(two.dig, 0, same);
    EXPECT_EQ(two.x, (std::vector<double>{0, 50, 100}));
    // From 10 at 0 to 6 at 100: at 50 it lies at 8, 1.5 under the highest; a triangle of 100 x 1.5 / 2.
    EXPECT_NEAR(one.dig, 75, same);
    EXPECT_NEAR(one.y.front(), 10, same);
    EXPECT_NEAR(one.y.back(), 6, same);
}

// By hand: a hollow at 50 holds the pipe down; after it the least fall.
TEST(Follow, AHollowHoldsThePipeDown) {
    const FollowRoad road{{0, 50, 100}, {10, 8, 10}, {50}};
    const Followed followed = follow(road, limits(0.01, 2));
    ASSERT_TRUE(followed.found);
    EXPECT_NEAR(at(followed.x, followed.y, 50), 8, same);
    EXPECT_NEAR(followed.y.back(), 7.5, same);
    EXPECT_NEAR(followed.y.front(), 10, same);
    const auto hollow = std::find_if(followed.held.begin(), followed.held.end(), [](const Held& held) {
        return held.by == Holder::Cover && held.x == 50;
    });
    ASSERT_NE(hollow, followed.held.end());
    EXPECT_GT(hollow->price, 0);
}

// By hand: at 1 in 100 from 10 the end lies at 9 at best; an outfall of 9.2 is 0.2 too high.
TEST(Follow, AnOutfallOutOfReachSaysByHowMuch) {
    const FollowRoad road{{0, 100}, {10, 12}, {}};
    FollowLimits wanted = limits(0.01);
    wanted.outfall = 9.2;
    const Followed followed = follow(road, wanted);
    EXPECT_FALSE(followed.found);
    EXPECT_NEAR(followed.shortfall, 0.2, same);
    wanted.outfall = 9;
    EXPECT_TRUE(follow(road, wanted).found);
    // An inlet 0.1 lower takes as much from the end.
    wanted.inlet = 9.9;
    EXPECT_NEAR(follow(road, wanted).shortfall, 0.1, same);
}

// By hand: no steeper than 1 in 50 under a road of 1 in 25, so the upper end goes down with the lower one.
TEST(Follow, TheSteepestFallHoldsTheUpperEndDown) {
    const FollowRoad road{{0, 50}, {10, 8}, {}};
    FollowLimits wanted = limits(0.01);
    wanted.steepest_fall = 0.02;
    const Followed followed = follow(road, wanted);
    ASSERT_TRUE(followed.found);
    EXPECT_NEAR(followed.y[0], 9, same);
    EXPECT_NEAR(followed.y[1], 8, same);
    EXPECT_GT(followed.price_of(Holder::SteepestFall), 0);
}

RC_GTEST_PROP(FollowProperty, KeepsEveryLimit, ()) {
    const FollowRoad road = any_road();
    FollowLimits wanted = any_limits();
    const Followed free = follow(road, wanted);
    RC_ASSERT(free.found);
    if (*rc::gen::arbitrary<bool>()) wanted.inlet = free.y.front() - 0.1;
    const Followed followed = follow(road, wanted);
    RC_ASSERT(followed.found);
    RC_ASSERT(followed.x.size() <= static_cast<std::size_t>(wanted.grades) + 1);
    for (std::size_t i = 0; i < road.x.size(); ++i)
        RC_ASSERT(at(followed.x, followed.y, road.x[i]) <= road.highest[i] + 1e-7);
    for (std::size_t i = 1; i < followed.x.size(); ++i) {
        const double fall = (followed.y[i - 1] - followed.y[i]) / (followed.x[i] - followed.x[i - 1]);
        RC_ASSERT(fall >= wanted.least_fall - 1e-7);
        RC_ASSERT(fall <= wanted.steepest_fall + 1e-7);
    }
    RC_ASSERT(followed.y.front() <= wanted.inlet + 1e-7);
    const double dig = area_under(road.x, road.highest) - area_under(followed.x, followed.y);
    RC_ASSERT(std::fabs(dig - followed.dig) < 1e-6);
    RC_ASSERT(followed.dig > -1e-6);
}

// Whatever is asked for more costs dig, and a grade more never does.
RC_GTEST_PROP(FollowProperty, MoreGradesNeverDigMore, ()) {
    const FollowRoad road = any_road();
    FollowLimits wanted = any_limits();
    wanted.grades = 1;
    double before = INFINITY;
    for (; wanted.grades <= 4; ++wanted.grades) {
        const Followed followed = follow(road, wanted);
        RC_ASSERT(followed.found && followed.proved);
        RC_ASSERT(followed.dig <= before + 1e-7);
        before = followed.dig;
    }
}

// The price is the slope of the dig: found again by asking for a little more. Where limits change places on
// the way the dig grows by no less than the price says.
RC_GTEST_PROP(FollowProperty, PricesAreWhatAskingForMoreCosts, ()) {
    FollowRoad road = any_road();
    FollowLimits wanted = any_limits();
    wanted.steepest_fall = INFINITY;
    wanted.grades = 1;
    const Followed followed = follow(road, wanted);
    RC_ASSERT(followed.found);
    constexpr double step = 1e-6;
    const double used = area_under(followed.x, followed.y);
    FollowLimits steeper = wanted;
    steeper.least_fall += step;
    const Followed more = follow(road, steeper);
    const double grown = (used - area_under(more.x, more.y)) / step;
    RC_ASSERT(grown >= followed.price_of(Holder::LeastFall) - 1e-2);
    for (double& level : road.highest) level -= step;
    const Followed covered = follow(road, wanted);
    const double cover = (used - area_under(covered.x, covered.y)) / step;
    RC_ASSERT(std::fabs(cover - followed.price_of(Holder::Cover)) < 1e-2);
}

}  // namespace fallwright::drain
