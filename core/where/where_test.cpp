#include "where/where.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

namespace fallwright {

namespace {

constexpr double assumed_sight = 30;

const std::string laser = R"({"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"line","name":"own"}
{"kind":"line","name":"grid","plan":[[0,0],[0,100]]}
)";

struct Located {
    std::unique_ptr<Book> book;
    Where where;

    explicit Located(const std::string& entries, const std::string& unit = "m")
        : book(std::move(*read_book(R"({"kind":"book","format":"fallwright","version":1,"unit":")" + unit +
                                    "\"}\n" + laser + entries))),
          where(locate(*book, assumed_sight)) {}

    const SightPlace& reading(std::size_t i) const { return where.readings.at(i); }
    std::ptrdiff_t count(Code code) const {
        return std::count_if(where.findings.begin(), where.findings.end(),
                             [code](const Finding& each) { return each.code == code; });
    }
};

std::string setup(const std::string& more, const std::string& name = "S") {
    return R"({"kind":"setup","name":")" + name + R"(","instrument":"L")" + more + "}\n";
}
std::string place(const std::string& point, double e, double n) {
    return R"({"kind":"place","point":")" + point + R"(","e":)" + std::to_string(e) + R"(,"n":)" +
           std::to_string(n) + "}\n";
}
std::string reading(const std::string& point, const std::string& more = "") {
    return R"({"kind":"reading","point":")" + point + R"(","staff":1)" + more + "}\n";
}

void expect_place(const SightPlace& place, double u, double v, double d) {
    EXPECT_TRUE(place.has_uv);
    EXPECT_NEAR(place.u, u, 1e-12);
    EXPECT_NEAR(place.v, v, 1e-12);
    EXPECT_NEAR(place.d, d, 1e-12);
}

}  // namespace

// Contract section 2: u along the main axis, v to its right; bearings clockwise from north.
TEST(Where, AlongAndRightOfTheMainAxis) {
    const std::string at = R"(,"place":{"e":10,"n":20})";
    const std::string points = place("P", 14, 23) + reading("P");
    expect_place(Located(setup(at) + points).reading(0), 3, 4, 5);
    expect_place(Located(setup(at + R"(,"plane":{"bearing":90})") + points).reading(0), 4, -3, 5);
    expect_place(Located(setup(at + R"(,"plane":{"bearing":180})") + points).reading(0), -3, -4, 5);
    expect_place(Located(setup(at + R"(,"plane":{"bearing":-90})") + points).reading(0), -4, 3, 5);
    expect_place(Located(setup(at + R"(,"plane":{"towards":"P"})") + points).reading(0), 5, 0, 5);
    EXPECT_FALSE(Located(setup(at) + points).where.headings[0].known);
}

TEST(Where, TowardsALineIsAlongItWithChainageWhereverItLies) {
    const Located located(setup(R"(,"place":{"e":10,"n":20},"plane":{"towards":"grid"})") +
                          place("P", 14, 23) + reading("P"));
    expect_place(located.reading(0), 3, 4, 5);
    EXPECT_TRUE(located.where.headings[0].known);
}

TEST(Where, TowardsItsOwnPlaceOrAnUnknownOneIsNoHeading) {
    const Located located(place("P", 10, 20) + setup(R"(,"place":{"point":"P"},"plane":{"towards":"P"})") +
                          setup(R"(,"place":{"point":"nowhere"},"plane":{"towards":"P"})", "T"));
    EXPECT_FALSE(located.where.headings[0].known || located.where.headings[1].known);
    EXPECT_FALSE(located.where.setups[1].known);
    EXPECT_EQ(located.count(Code::PlaceUnknown), 3);
}

TEST(Where, AlongAndAcrossWinOverPlacesAndPlacesOverDist) {
    const Located located(setup(R"(,"place":{"e":0,"n":0})") + place("P", 0, 10) +
                          reading("P", R"(,"along":6,"across":-8,"dist":10)") +
                          reading("P", R"(,"dist":10.9)") + reading("Q", R"(,"dist":40)") + reading("Q"));
    expect_place(located.reading(0), 6, -8, 10);
    EXPECT_TRUE(located.where.aligned[0]);
    EXPECT_EQ(located.reading(1).d, 10);
    EXPECT_EQ(located.reading(2).d, 40);
    EXPECT_FALSE(located.reading(2).has_uv || located.reading(2).assumed_d);
    EXPECT_EQ(located.reading(3).d, assumed_sight);
    EXPECT_TRUE(located.reading(3).assumed_d);
    EXPECT_EQ(located.count(Code::DistanceDiffers), 0);
}

TEST(Where, DistancesThatDifferByMoreThanATenthAreSaid) {
    const auto clashes = [](double booked) {
        return Located(setup(R"(,"place":{"e":0,"n":0})") + place("P", 0, 10) +
                       reading("P", R"(,"dist":)" + std::to_string(booked)))
            .count(Code::DistanceDiffers);
    };
    EXPECT_EQ(clashes(9.0), 0);
    EXPECT_EQ(clashes(8.99), 1);
    EXPECT_EQ(clashes(11.1), 0);
    EXPECT_EQ(clashes(11.2), 1);
}

TEST(Where, WithoutAPlaceUAndVCountFromTheFirstPointReadThatHasOne) {
    const Located located(setup(R"(,"plane":{"bearing":0})") + reading("nowhere") + place("A", 3, 4) +
                          place("B", 5, 8) + reading("A", R"(,"dist":20)") + reading("B"));
    EXPECT_FALSE(located.reading(0).has_uv);
    expect_place(located.reading(1), 0, 0, 20);
    expect_place(located.reading(2), 4, 2, assumed_sight);
    EXPECT_TRUE(located.reading(2).assumed_d);
}

TEST(Where, OnlyReadingsThatAreEvaluatedSayWhichWayTheBodyStands) {
    const std::string read = setup(R"(,"place":{"e":0,"n":0})") + place("P", 3, 4) + reading("P");
    const Located located(read + R"({"kind":"reading","point":"Q","planned":true,"along":5}
)");
    EXPECT_FALSE(located.where.aligned[0]);
    expect_place(located.reading(0), 4, 3, 5);
    EXPECT_TRUE(located.reading(1).has_uv);
    EXPECT_TRUE(Located(setup("") + R"({"kind":"reading","point":"Q","planned":true,"along":5}
)")
                    .where.aligned[0]);
}

TEST(Where, ASpotIsSeenFromASetUpAsAReadingThereWouldBe) {
    const Located located(setup(R"(,"place":{"e":10,"n":20},"plane":{"bearing":90})") + setup("", "T") +
                          place("P", 14, 23) + reading("P", R"(,"dist":7,"setup":"T")"));
    expect_place(seen_from(located.where, 0, {true, 0, 14, 23}), 4, -3, 5);
    EXPECT_FALSE(seen_from(located.where, 0, {true, 1, 14, 23}).has_uv);
    EXPECT_TRUE(seen_from(located.where, 0, {}).assumed_d);
    // Without a place of its own: from the first point read that has one, as far as the assumed sight.
    const SightPlace seen = seen_from(located.where, 1, {true, 0, 15, 25});
    expect_place(seen, 2, 1, assumed_sight);
    EXPECT_TRUE(seen.assumed_d);
}

TEST(Where, PlacesInDifferentFramesGiveNoDirection) {
    const Located located(setup(R"(,"place":{"line":"own","ch":10,"off":3})") +
                          R"({"kind":"reading","line":"own","ch":14,"staff":1}
{"kind":"reading","line":"grid","ch":14,"staff":1,"dist":25}
)");
    expect_place(located.reading(0), 4, -3, 5);
    EXPECT_FALSE(located.reading(1).has_uv);
    EXPECT_EQ(located.reading(1).d, 25);
    EXPECT_EQ(located.count(Code::OtherFrames), 1);
}

TEST(Where, ASharedHeadHasThePlaceAndBearingOfItsTripod) {
    const Located located(setup(R"(,"place":{"e":10,"n":20},"plane":{"bearing":90})") +
                          setup(R"(,"head":"S","plane":{"bearing":0,"main":0.01})", "T") +
                          place("P", 14, 23) + reading("P"));
    EXPECT_EQ(located.where.tripods, (std::vector<std::int32_t>{0, 0}));
    EXPECT_EQ(located.where.headings[1].e, 1);
    expect_place(located.reading(0), 4, -3, 5);
}

TEST(Where, AHeadWhoseTripodHasNoPlaceIsATripodOfItsOwn) {
    const Located located(setup("") + setup(R"(,"head":"S")", "T") +
                          setup(R"(,"place":{"point":"nowhere"})", "U") + setup(R"(,"head":"U")", "V"));
    EXPECT_EQ(located.where.tripods, (std::vector<std::int32_t>{0, 1, 2, 3}));
    EXPECT_EQ(located.count(Code::HeadWithoutPlace), 2);
}

TEST(Where, ThreeWiresGiveADistanceUnlessOneIsBooked) {
    const Located located(setup("") + R"({"kind":"reading","point":"A","top":1.65,"staff":1.5,"bottom":1.35}
{"kind":"reading","point":"B","top":-1.65,"staff":-1.5,"bottom":-1.35}
{"kind":"reading","point":"C","top":1.65,"staff":1.5,"bottom":1.35,"dist":31}
)");
    EXPECT_NEAR(located.reading(0).d, 30, 1e-12);
    EXPECT_NEAR(located.reading(1).d, 30, 1e-12);
    EXPECT_EQ(located.reading(2).d, 31);
    EXPECT_FALSE(located.reading(0).assumed_d);
}

TEST(Where, TheClashIsSaidInTheBooksUnit) {
    const Located located(
        setup(R"(,"place":{"e":0,"n":0})") + place("P", 0, 100) + reading("P", R"(,"dist":50)"), "ft");
    EXPECT_NEAR(located.reading(0).d, 30.48, 1e-12);
    ASSERT_EQ(located.count(Code::DistanceDiffers), 1);
    EXPECT_EQ(located.where.findings[0].message, "the distance booked is 50 ft, the places say 100 ft");
}

}  // namespace fallwright
