#include "trial/trial.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <sstream>
#include <utility>

namespace fallwright {

namespace {

// A book with an instrument of each kind, and the checks given.
class Checked {
  public:
    explicit Checked(const std::string& entries)
        : book_(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n"
                         "{\"kind\":\"instrument\",\"name\":\"laser\",\"type\":\"rotating-laser\"}\n"
                         "{\"kind\":\"instrument\",\"name\":\"level\",\"type\":\"optical-level\"}\n" +
                         entries))),
          trials_(check_instruments(*book_, locate(*book_, 30))) {}

    const Trials& all() const { return trials_; }
    const TrialOutcome& first() const { return trials_.outcomes.at(0); }
    std::string sees() const { return joined(first().seen); }
    std::string blind_to() const {
        std::array<bool, tested_errors> blind{};
        for (std::size_t i = 0; i < tested_errors; ++i) blind[i] = !first().seen[i];
        return joined(blind);
    }
    int said(Code code) const {
        int count = 0;
        for (const Finding& each : trials_.findings) count += each.code == code ? 1 : 0;
        return count;
    }

  private:
    std::string joined(const std::array<bool, tested_errors>& which) const {
        std::string text;
        for (const std::string& name : error_names(first().tested, which))
            text += (text.empty() ? "" : ", ") + name;
        return text;
    }

    std::unique_ptr<Book> book_;
    Trials trials_;
};

// An instrument with these errors, standing at a height, reads pegs of known heights exactly.
class Layout {
  public:
    Layout(double main, double cross, double along) : main_(main), cross_(cross), along_(along) {}

    Layout& shot(const std::string& station, double plane, const std::string& peg, double height, double d) {
        return add(station, peg, plane + along_ * d - height, d, "");
    }
    Layout& faced(const std::string& station, double plane, const std::string& peg, double height, double d,
                  int facing, const std::string& turn = "") {
        constexpr std::array<int, 4> cosine = {1, 0, -1, 0}, sine = {0, 1, 0, -1};
        const auto quarter = static_cast<std::size_t>(facing / 90 % 4);
        const double tilt = d * (main_ * cosine[quarter] + cross_ * sine[quarter]);
        const std::string named = turn.empty() ? "" : ",\"turn\":\"" + turn + "\"";
        return add(station, peg, plane + along_ * d + tilt - height, d,
                   ",\"facing\":" + std::to_string(facing) + named);
    }
    std::string trial(const std::string& instrument, const std::string& name = "T") const {
        return "{\"kind\":\"trial\",\"name\":\"" + name + "\",\"instrument\":\"" + instrument +
               "\",\"shots\":[" + shots_ + "]}\n";
    }

  private:
    Layout& add(const std::string& station, const std::string& peg, double staff, double d,
                const std::string& more) {
        std::ostringstream shot;
        shot.precision(12);
        shot << (shots_.empty() ? "" : ",") << "{\"station\":\"" << station << "\",\"peg\":\"" << peg
             << "\",\"dist\":" << d << ",\"staff\":" << staff << more << "}";
        shots_ += shot.str();
        return *this;
    }

    double main_, cross_, along_;
    std::string shots_;
};

Layout two_pegs(double error) {
    Layout layout(6e-5, 2e-5, error);
    layout.shot("mid", 1.5, "A", 0, 30).shot("mid", 1.5, "B", 0.2, 30);
    layout.shot("near A", 1.6, "A", 0, 10).shot("near A", 1.6, "B", 0.2, 50);
    return layout;
}

constexpr double exact = 1e-9;

}  // namespace

// measurement-model.md, finding 2.
TEST(Trial, TwoPegsShowTheConeAndAreBlindToTilt) {
    const Checked book(two_pegs(4e-5).trial("laser"));
    EXPECT_EQ(book.sees(), "cone");
    EXPECT_EQ(book.blind_to(), "tilt");
    EXPECT_NEAR(book.first().value[2], 4e-5, exact);
    EXPECT_TRUE(std::isnan(book.first().value[0]));
    EXPECT_NEAR(book.first().at_30_m, 30 * 4e-5, 1e-8);
}

TEST(Trial, TwoPegsShowTheCollimationOfALevelAndNothingElseIsAsked) {
    const Checked book(two_pegs(-4e-5).trial("level"));
    EXPECT_EQ(book.sees(), "collimation");
    EXPECT_EQ(book.blind_to(), "");
    EXPECT_NEAR(book.first().value[3], -4e-5, exact);
    EXPECT_EQ(book.first().passes, true);
}

TEST(Trial, AHalfTurnShowsTheTiltAlongTheSightAndIsBlindToTheCone) {
    const Layout main =
        Layout(6e-5, 2e-5, 4e-5).faced("S", 1.5, "A", 0, 30, 0).faced("S", 1.5, "A", 0, 30, 180);
    EXPECT_EQ(Checked(main.trial("laser")).sees(), "tilt main");
    EXPECT_EQ(Checked(main.trial("laser")).blind_to(), "tilt cross, cone");
    const Layout cross =
        Layout(6e-5, 2e-5, 4e-5).faced("S", 1.5, "A", 0, 30, 90).faced("S", 1.5, "A", 0, 30, 270);
    EXPECT_EQ(Checked(cross.trial("laser")).sees(), "tilt cross");
}

TEST(Trial, FourDirectionsAtOnePegShowBothTilts) {
    Layout layout(6e-5, 2e-5, 4e-5);
    for (const int facing : {0, 90, 180, 270}) layout.faced("S", 1.5, "A", 0, 30, facing);
    const Checked book(layout.trial("laser"));
    EXPECT_EQ(book.sees(), "tilt");
    EXPECT_EQ(book.blind_to(), "cone");
    EXPECT_NEAR(book.first().value[0], 6e-5, exact);
    EXPECT_NEAR(book.first().value[1], 2e-5, exact);
    EXPECT_NEAR(book.first().at_30_m, 30 * std::sqrt(40.0) * 1e-5, 1e-8);
}

// Near and far at one station: the height between the pegs is not known, so the cone stays unseen.
TEST(Trial, FourDirectionsNearAndFarNeedTheHeightBetweenThePegs) {
    Layout layout(6e-5, 2e-5, 4e-5);
    for (const int facing : {0, 90, 180, 270})
        layout.faced("S", 1.5, "far", 0, 30, facing).faced("S", 1.5, "near", 0.1, 5, facing);
    EXPECT_EQ(Checked(layout.trial("laser")).blind_to(), "cone");
    for (const int facing : {0, 180})
        layout.faced("M", 1.4, "far", 0, 12.5, facing, std::to_string(facing))
            .faced("M", 1.4, "near", 0.1, 12.5, (facing + 180) % 360, std::to_string(facing));
    const Checked book(layout.trial("laser"));
    EXPECT_EQ(book.sees(), "tilt, cone");
    EXPECT_NEAR(book.first().value[2], 4e-5, exact);
}

TEST(Trial, ThreeStationsWithFourFacingsShowEverything) {
    Layout layout(6e-5, -2e-5, 4e-5);
    for (const int body : {0, 90, 180, 270}) {
        const std::string turn = std::to_string(body);
        const int back = (180 + body) % 360;
        layout.faced("A", 1.5, "I", 0, 20, back, turn).faced("A", 1.5, "II", 0.3, 20, body, turn);
        layout.faced("B", 1.6, "I", 0, 14.6, body, turn).faced("B", 1.6, "II", 0.3, 54.6, body, turn);
        layout.faced("C", 1.4, "I", 0, 54.6, back, turn).faced("C", 1.4, "II", 0.3, 14.6, back, turn);
    }
    const Checked book(layout.trial("laser"));
    EXPECT_EQ(book.sees(), "tilt, cone");
    EXPECT_EQ(book.blind_to(), "");
    EXPECT_NEAR(book.first().value[1], -2e-5, exact);
    EXPECT_GT(book.first().scatter.dof, 8);
}

// One levelling-up and pegs all round: a tilt cannot be told from the pegs' own slope.
TEST(Trial, PegsAllRoundWithoutATurnShowNoTilt) {
    Layout layout(6e-5, -2e-5, 4e-5);
    for (const int facing : {0, 90, 180, 270})
        layout.faced("S", 1.5, "P" + std::to_string(facing), 0, 30, facing, "one");
    const Checked book(layout.trial("laser"));
    EXPECT_EQ(book.sees(), "");
    EXPECT_EQ(book.first().passes, std::nullopt);
    EXPECT_EQ(book.said(Code::TrialSeesNothing), 1);
}

TEST(Trial, EqualSightsEverywhereSeeNothing) {
    const Layout layout = Layout(0, 0, 4e-5).shot("S", 1, "A", 0, 30).shot("S", 1, "B", 0.1, 30);
    EXPECT_EQ(Checked(layout.trial("level")).sees(), "");
}

// Sights that differ by 1 m leave the error uncertain by more than 0.5 mm/m: that is not seeing it.
TEST(Trial, NearlyEqualSightsSeeNothing) {
    Layout layout(0, 0, 4e-5);
    layout.shot("mid", 1, "A", 0, 30).shot("mid", 1, "B", 0.1, 30);
    layout.shot("end", 1, "A", 0, 30).shot("end", 1, "B", 0.1, 31);
    EXPECT_EQ(Checked(layout.trial("level")).sees(), "");
}

// u(e) = sqrt(2 (u_mid^2 + ...)): each reading once over the 40 m that the sights differ by (section 4.3).
TEST(Trial, RepeatsMakeItSurer) {
    Layout once = two_pegs(4e-5);
    const double single = Checked(once.trial("level")).first().sd[3];
    once.shot("mid", 1.5, "A", 0, 30).shot("mid", 1.5, "B", 0.2, 30);
    once.shot("near A", 1.6, "A", 0, 10).shot("near A", 1.6, "B", 0.2, 50);
    const Checked twice(once.trial("level"));
    EXPECT_NEAR(twice.first().sd[3], single / std::sqrt(2.0), 1e-12);
    EXPECT_EQ(twice.first().scatter.dof, 4);
}

// A setting tilt counts with the distance of the pegs, wherever the instrument stands in their line: 60 m
// here, from the middle and from the end.
TEST(Trial, ASettingTiltCostsTheDistanceOfThePegs) {
    const Checked book(two_pegs(4e-5).trial("laser"));
    const double readings = 4 * 0.0012 * 0.0012;
    const double settings = 2 * 60 * 60 * 1.3e-5 * 1.3e-5;
    EXPECT_NEAR(book.first().sd[2], std::sqrt(readings + settings) / 40, 1e-12);
}

// From 5 m beyond B the pegs are as far apart as from the middle: 50 m.
TEST(Trial, AStationBeyondThePegsIsKnownByTheOthers) {
    Layout layout(0, 0, 4e-5);
    layout.shot("mid", 1.5, "A", 0, 25).shot("mid", 1.5, "B", 0.2, 25);
    layout.shot("beyond", 1.6, "A", 0, 55).shot("beyond", 1.6, "B", 0.2, 5);
    const double settings = 2 * 50 * 50 * 1.3e-5 * 1.3e-5;
    EXPECT_NEAR(Checked(layout.trial("laser")).first().sd[2], std::sqrt(4 * 0.0012 * 0.0012 + settings) / 50,
                1e-12);
}

TEST(Trial, CorrectedReadingsAreThoseOfAnInstrumentInOrder) {
    Layout layout(6e-5, 2e-5, 0);
    for (const int facing : {0, 90, 180, 270}) layout.faced("S", 1.5, "A", 0, 30, facing);
    const Checked book(layout.trial("laser"));
    for (const ShotFit& shot : book.first().shots) EXPECT_NEAR(shot.corrected, 1.5, 1e-7);
}

TEST(Trial, AnInvertedShotCountsFromAbove) {
    Layout layout(0, 0, 4e-5);
    layout.shot("mid", 1.5, "A", 0, 30).shot("mid", 1.5, "roof", 3.0, 30);
    layout.shot("near A", 1.6, "A", 0, 10).shot("near A", 1.6, "roof", 3.0, 50);
    const Checked book(layout.trial("level"));
    EXPECT_NEAR(book.first().value[3], 4e-5, exact);
    EXPECT_NEAR(book.first().shots[1].value, -1.4988, 1e-7);
}

TEST(Trial, OutcomeJoinsWithTheEntryByInverseVariances) {
    const Checked book(two_pegs(1e-4).trial("level"));
    const CheckedErrors& joined = book.all().checked.at({1, 0});
    const double check = 1 / (book.first().sd[3] * book.first().sd[3]), entry = 1 / (5e-5 * 5e-5);
    EXPECT_NEAR(joined.covariance[3][3] * (check + entry), 1, 1e-6);
    EXPECT_NEAR(joined.value[3], 1e-4 * check / (check + entry), 1e-10);
    EXPECT_EQ(joined.covariance[2][2], 0);
    EXPECT_EQ(joined.value[2], 0);
}

// A half turn at 45 degrees to the axes sees the sum of both tilts and neither of them: joined with the
// entry, both are better known, and together.
TEST(Trial, WhatIsSeenOfTwoErrorsTogetherIsNotLost) {
    const std::string shots =
        R"({"station":"S","peg":"A","dist":30,"facing":45,"staff":1.503},{"station":"S","peg":"A","dist":30,"facing":225,"staff":1.500})";
    const Checked book(R"({"kind":"trial","name":"T","instrument":"laser","shots":[)" + shots + "]}\n");
    EXPECT_EQ(book.sees(), "");
    const CheckedErrors& joined = book.all().checked.at({0, 0});
    // By hand: direction (1, 1)/sqrt 2, found 5e-5 with variance s; entry variance p in each axis.
    const double s = 2 * (0.0012 * 0.0012 + 900 * 1.3e-5 * 1.3e-5) / 3600, p = 4e-10;
    EXPECT_NEAR(joined.covariance[0][0] / ((p + p * s / (p + s)) / 2), 1, 1e-6);
    EXPECT_NEAR(joined.covariance[0][1] / ((p * s / (p + s) - p) / 2), 1, 1e-6);
    EXPECT_NEAR(joined.value[0], 5e-5 * p / (p + s) / std::sqrt(2.0), 1e-10);
}

TEST(Trial, AnEntryThatSaysNothingLeavesAPriorAllTheSame) {
    const std::string vague =
        R"({"kind":"instrument","name":"vague","type":"rotating-laser","tilt_sd":1e6,"cone_sd":1e6})";
    const Layout half =
        Layout(6e-5, 2e-5, 4e-5).faced("S", 1.5, "A", 0, 30, 0).faced("S", 1.5, "A", 0, 30, 180);
    const Checked book(vague + "\n" + half.trial("vague"));
    const CheckedErrors& joined = book.all().checked.at({2, 0});
    EXPECT_NEAR(joined.value[0], 6e-5, 1e-8);
    EXPECT_NEAR(joined.value[2], 0, 1e-8);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_GT(joined.covariance[i][i], 0);
}

TEST(Trial, AnErrorNoInstrumentHasIsASlip) {
    const Checked book(two_pegs(0.0498).trial("level"));
    EXPECT_FALSE(book.first().consistent);
    EXPECT_EQ(book.said(Code::TrialInconsistent), 1);
    EXPECT_EQ(book.said(Code::TrialFails), 0);
    EXPECT_TRUE(book.all().checked.empty());
}

TEST(Trial, ALimitKeptByLittleIsTooCloseToTell) {
    EXPECT_EQ(Checked(two_pegs(4e-5).trial("level")).said(Code::TrialTooClose), 1);
    EXPECT_EQ(Checked(two_pegs(6e-5).trial("level")).said(Code::TrialFails), 1);
}

TEST(Trial, ShotsThatScatterMoreThanStatedAreSaidToDoSo) {
    Layout layout(0, 0, 0);
    for (const double off : {0.0025, -0.0025, 0.002, -0.002}) {
        layout.shot("mid", 1.5 + off, "A", 0, 30).shot("mid", 1.5 - off, "B", 0.2, 30);
        layout.shot("near A", 1.6, "A", 0, 10).shot("near A", 1.6, "B", 0.2, 50);
    }
    const Checked book(
        "{\"kind\":\"instrument\",\"name\":\"fine\",\"type\":\"optical-level\",\"reading_sd\":"
        "0.0014,\"sd_per_m\":0}\n" +
        layout.trial("fine"));
    EXPECT_EQ(book.said(Code::TrialScatter) + book.said(Code::TrialInconsistent), 0);
    const Checked coarse(
        "{\"kind\":\"instrument\",\"name\":\"fine\",\"type\":\"optical-level\","
        "\"reading_sd\":0.0012,\"sd_per_m\":0}\n" +
        layout.trial("fine"));
    EXPECT_EQ(coarse.said(Code::TrialScatter), 1);
    EXPECT_TRUE(coarse.first().consistent);
}

TEST(Trial, TwoChecksThatScatterDifferentlyAreTold) {
    Layout quiet(0, 0, 0), wild(0, 0, 0);
    for (int i = 0; i < 8; ++i) {
        const double off = i % 2 == 0 ? 1 : -1;
        quiet.shot("mid", 1.5 + 0.0002 * off, "A", 0, 30).shot("near", 1.6, "A", 0, 10);
        wild.shot("mid", 1.5 + 0.0012 * off, "A", 0, 30).shot("near", 1.6, "A", 0, 10);
    }
    EXPECT_EQ(Checked(quiet.trial("level") + wild.trial("level", "U")).said(Code::TrialsScatter), 1);
    EXPECT_EQ(Checked(quiet.trial("level") + quiet.trial("level", "U")).said(Code::TrialsScatter), 0);
}

TEST(Trial, ABookWithoutChecksSaysNothing) {
    const Checked book("");
    EXPECT_TRUE(book.all().outcomes.empty());
    EXPECT_TRUE(book.all().checked.empty());
    EXPECT_TRUE(book.all().findings.empty());
}

}  // namespace fallwright
