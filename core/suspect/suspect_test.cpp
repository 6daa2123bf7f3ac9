#include "suspect/suspect.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "suspect/data_set.h"
#include "suspect/names.h"
#include "suspect/ranking.h"
#include "suspect/reassign.h"

namespace fallwright {

namespace {

bool accuses(const Suspect& suspect, SuspectKind kind, const std::vector<std::string>& about) {
    if (suspect.who.kind == kind && suspect.who.about == about) return true;
    for (const Accused& who : suspect.alike) {
        if (who.kind == kind && who.about == about) return true;
    }
    return false;
}

bool says(const Suspects& suspects, Code code) {
    for (const Finding& each : suspects.findings) {
        if (each.code == code) return true;
    }
    return false;
}

TEST(Suspects, NothingWrongAndAllCausesAddUpToOne) {
    for (const DataReadings& readings : {clean_readings, with_reading(3, 1.612), with_reading(7, 1.92)}) {
        const SuspectedBook book = data_book(readings);
        const Ranking ranking = rank_causes(book.evidence(), book.causes(), priors_of(book.book()));
        double sum = ranking.probability(ranking.none);
        for (const Weighed& each : ranking.best) sum += ranking.probability(each.weight);
        EXPECT_NEAR(sum, 1, 1e-9);
    }
}

TEST(Suspects, ACleanBookIsMostlyClean) {
    const Suspects suspects = data_book(clean_readings).suspects();
    EXPECT_GT(suspects.none, 0.97);
    for (const Suspect& each : suspects.list) EXPECT_LT(each.probability, 0.1);
    EXPECT_EQ(suspects.lone_sights, 8);
}

TEST(Suspects, AKnockIsFoundWithItsNeighbours) {
    DataReadings readings = clean_readings;
    for (std::size_t i = 12; i < 16; ++i) readings[i] += 0.014;
    const Suspects suspects = data_book(readings).suspects();
    ASSERT_FALSE(suspects.list.empty());
    EXPECT_TRUE(accuses(suspects.list.front(), SuspectKind::Knocked, {"2", "r13"}));
    EXPECT_NEAR(suspects.list.front().size, 0.0143, 0.001);
    EXPECT_GT(suspects.list.front().probability, 0.98);
    ASSERT_NE(suspects.list.front().settle_by, nullptr);
    EXPECT_EQ(suspects.list.front().settle_by->effort, 1);
}

TEST(Suspects, NoReadingDecidesWhetherAChangePointMovedOnceItIsLeft) {
    DataReadings readings = clean_readings;
    readings[8] -= 0.012;
    readings[15] -= 0.012;
    const Suspects suspects = data_book(readings).suspects();
    ASSERT_FALSE(suspects.list.empty());
    EXPECT_TRUE(accuses(suspects.list.front(), SuspectKind::MovedChangePoint, {"CP1", "2"}));
    EXPECT_TRUE(accuses(suspects.list.front(), SuspectKind::Misread, {"r7"}));
}

TEST(Suspects, TwoBlundersAreSoughtWhereOneLeavesTooMuch) {
    DataReadings readings = with_reading(7, 1.92);
    readings[9] += 0.1;  // the other common point, from set-up 2
    const Suspects suspects = data_book(readings).suspects();
    ASSERT_FALSE(suspects.list.empty());
    const Suspect& first = suspects.list.front();
    ASSERT_EQ(first.with.size(), 1U);
    const bool one_way = accuses(first, SuspectKind::Misread, {"r7"}) && first.with[0].about.front() == "r10";
    const bool other_way =
        accuses(first, SuspectKind::Misread, {"r10"}) && first.with[0].about.front() == "r7";
    EXPECT_TRUE(one_way || other_way);
}

TEST(Suspects, PriorsAreTheBooks) {
    const std::string rule =
        "{\"kind\":\"rule\",\"name\":\"suspect-priors\",\"values\":{\"misread\":0,\"wrong-benchmark\":0.5}}"
        "\n";
    const SuspectedBook book(data_entries(clean_readings, 98.8) + rule);
    const Suspects suspects = book.suspects();
    ASSERT_FALSE(suspects.list.empty());
    EXPECT_EQ(suspects.list.front().who.kind, SuspectKind::WrongBenchmark);
    for (const Accused& who : suspects.list.front().alike) EXPECT_NE(who.kind, SuspectKind::Misread);
}

// ln odds = half the change of the global test, and of what the reading's own spread is worth: by books with
// the reading under another name, and without it.
TEST(Reassigned, AnotherPointIsTheBookWithTheOtherName) {
    const std::string start =
        R"({"kind":"instrument","name":"L","type":"optical-level","reading_sd":0.001,"sd_per_m":0,"collimation_sd":0}
{"kind":"benchmark","point":"A","level":10}
{"kind":"setup","name":"1","instrument":"L"}
{"kind":"reading","setup":"1","point":"A","staff":1.5,"dist":20}
{"kind":"reading","setup":"1","point":"B","staff":1.2,"dist":20}
{"kind":"reading","setup":"1","point":"C","staff":1.21,"dist":20}
{"kind":"setup","name":"2","instrument":"L"}
{"kind":"reading","setup":"2","point":"A","staff":1.7,"dist":20}
{"kind":"reading","setup":"2","point":"C","staff":1.409,"dist":20}
)";
    const std::string as_booked =
        R"({"kind":"reading","id":"x","setup":"2","point":"B","staff":1.411,"dist":20})";
    const std::string as_other =
        R"({"kind":"reading","id":"x","setup":"2","point":"C","staff":1.411,"dist":20})";
    const SuspectedBook booked(start + as_booked + "\n"), other(start + as_other + "\n");
    Cause cause;
    cause.kind = SuspectKind::WrongPoint;
    cause.row = booked.row("x");
    cause.setup = 1;
    cause.point = booked.model().points.at(booked.book().names.find("C"));
    const double odds = odds_reassigned(booked.evidence(), booked.causes(), cause, -1e9).log_odds;
    // Spread of the reading as booked and as it would be, from the redundancies of both books.
    const auto spread = [](const SuspectedBook& book) {
        const auto row = static_cast<std::uint32_t>(book.row("x"));
        return 1 / book.evidence().one(row).information;
    };
    // The foot of C is read twice there and shared: its part of the row is a column, not in the reading's
    // own.
    const double by_books = (booked.model().summary.chi2 - other.model().summary.chi2) / 2 +
                            std::log(spread(booked) / spread(other)) / 2;
    EXPECT_NEAR(odds, by_books, 0.1);
    EXPECT_GT(odds, 15);
}

TEST(Names, ASlipOfTheHandIsNearAndCountingIsNot) {
    EXPECT_TRUE(near_equal("CP1", "CPl"));
    EXPECT_TRUE(near_equal("TBM 2", "TBM2"));
    EXPECT_TRUE(near_equal("bm1", "BM1"));
    EXPECT_TRUE(near_equal("Gate", "Gaet"));
    EXPECT_FALSE(near_equal("P1", "P2"));
    EXPECT_FALSE(near_equal("P1", "P12"));
    EXPECT_FALSE(near_equal("peg E", "peg W"));
    EXPECT_FALSE(near_equal("G-3", "G+3"));
    EXPECT_FALSE(near_equal("kerb", "gully"));
}

TEST(Doubts, ALevelThatNoNeighbourSupportsIsAskedAbout) {
    std::string text = R"({"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"benchmark","point":"A","level":10}
{"kind":"line","name":"R"}
{"kind":"setup","name":"1","instrument":"L"}
{"kind":"reading","point":"A","staff":1.5}
)";
    for (int i = 0; i < 9; ++i) {
        const double staff = 1.4 + 0.01 * i + (i % 2 == 0 ? 0.002 : 0) + (i == 5 ? 0.3 : 0);
        text += "{\"kind\":\"reading\",\"id\":\"r" + std::to_string(i) +
                "\",\"line\":\"R\",\"ch\":" + std::to_string(10 * i) + ",\"staff\":" + std::to_string(staff) +
                "}\n";
    }
    const Suspects suspects = SuspectedBook(text).suspects();
    ASSERT_TRUE(says(suspects, Code::NoNeighbour));
    for (const Finding& each : suspects.findings) {
        if (each.code != Code::NoNeighbour) continue;
        EXPECT_EQ(each.about, std::vector<std::string>{"r5"});
    }
}

TEST(Doubts, RepeatsThatScatterMoreThanStatedAreSaid) {
    const auto book = [](double scatter) {
        std::string text = R"({"kind":"instrument","name":"L","type":"optical-level","reading_sd":0.001}
{"kind":"benchmark","point":"A","level":10}
{"kind":"setup","name":"1","instrument":"L"}
)";
        for (int i = 0; i < 12; ++i)
            text += "{\"kind\":\"reading\",\"point\":\"A\",\"staff\":" +
                    std::to_string(1.5 + (i % 2 == 0 ? scatter : -scatter)) + "}\n";
        return SuspectedBook(text).suspects();
    };
    EXPECT_TRUE(says(book(0.003), Code::ReadingSdDiffers));
    EXPECT_FALSE(says(book(0.001), Code::ReadingSdDiffers));
}

TEST(Doubts, AnAmendmentOnSuspicionIsFlaggedUntilThePointIsReadAgain) {
    const std::string start = R"({"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"benchmark","point":"A","level":10}
{"kind":"setup","name":"1","instrument":"L"}
{"kind":"reading","point":"A","staff":1.5}
{"kind":"reading","id":"p","point":"P","staff":1.5}
{"kind":"amend","of":"p","set":{"staff":1.4},"why":"misread","settle":"P"}
)";
    EXPECT_TRUE(says(SuspectedBook(start).suspects(), Code::AmendedOnSuspicion));
    const std::string again = "{\"kind\":\"reading\",\"point\":\"P\",\"staff\":1.401}\n";
    EXPECT_FALSE(says(SuspectedBook(start + again).suspects(), Code::AmendedOnSuspicion));
}

TEST(BeforeLifting, TheFirstPointIsToBeReadAgain) {
    const Suspects open = data_book(clean_readings).suspects();
    EXPECT_EQ(open.before_lifting, nullptr);  // set-up 2 ends on the change point it began with
    const std::string entries = data_entries(clean_readings, 98.7);
    const SuspectedBook book(entries.substr(0, entries.rfind("{\"kind\":\"reading\"")));
    const Suspects suspects = book.suspects();
    ASSERT_NE(suspects.before_lifting, nullptr);
    EXPECT_EQ(book.name_of(suspects.before_lifting->point), "CP1");
    EXPECT_NEAR(suspects.before_lifting->staff, 1.39, 0.003);
    EXPECT_NEAR(suspects.before_lifting->limit, 1.96 * suspects.before_lifting->sd, 1e-12);
}

}  // namespace

}  // namespace fallwright
