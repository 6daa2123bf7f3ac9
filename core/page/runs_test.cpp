#include "page/runs.h"

#include <gtest/gtest.h>

#include "page/booked.h"

namespace fallwright {

namespace {

// The set-ups of a run, in order.
std::vector<std::string> setups_of(const Booked& booked, const Run& run) {
    std::vector<std::string> names;
    for (const RunSetup& each : run.setups) names.push_back(booked.setup(each.setup));
    return names;
}

using Setups = std::vector<std::string>;

const std::string bm = benchmark("BM", "50");

}  // namespace

TEST(Runs, ASetUpThatStandsOnAPointTheLastOneReadGoesOn) {
    const Booked booked(bm, {{"S1", "BM", "-", "1"},
                             {"S1", "A", "-", "2"},
                             {"S1", "B", "-", "1.5"},
                             {"S2", "B", "-", "1"},
                             {"S2", "C", "-", "1"}});
    const Runs runs = booked.runs();
    ASSERT_EQ(runs.runs.size(), 1u);
    EXPECT_EQ(setups_of(booked, runs.runs[0]), (Setups{"S1", "S2"}));
    EXPECT_EQ(booked.name(runs.runs[0].setups[0].carried), "B");
    EXPECT_EQ(runs.runs[0].setups[1].carried, no_name);
}

TEST(Runs, TwoCrewsAtOnceDoNotMix) {
    const Booked booked(benchmark("N0", "10") + benchmark("S0", "20"), {{"N1", "N0", "back", "1"},
                                                                        {"S1", "S0", "back", "1"},
                                                                        {"N1", "NA", "fore", "1"},
                                                                        {"S1", "SA", "fore", "1"},
                                                                        {"N2", "NA", "back", "1"},
                                                                        {"S2", "SA", "back", "1"},
                                                                        {"N2", "NB", "fore", "1"},
                                                                        {"S2", "SB", "fore", "1"}});
    const Runs runs = booked.runs();
    ASSERT_EQ(runs.runs.size(), 2u);
    EXPECT_EQ(setups_of(booked, runs.runs[0]), (Setups{"N1", "N2"}));
    EXPECT_EQ(setups_of(booked, runs.runs[1]), (Setups{"S1", "S2"}));
}

TEST(Runs, WhoStartsAgainFromAPointOfAnEarlierSetUpBranchesOff) {
    const Booked booked(bm, {{"S1", "BM", "back", "1"},
                             {"S1", "A", "inter", "1"},
                             {"S1", "B", "fore", "1"},
                             {"S2", "B", "back", "1"},
                             {"S2", "C", "fore", "1"},
                             {"S3", "A", "back", "1"},
                             {"S3", "D", "fore", "1"},
                             {"S4", "B", "back", "1"},
                             {"S4", "E", "fore", "1"}});
    const Runs runs = booked.runs();
    ASSERT_EQ(runs.runs.size(), 3u);
    EXPECT_EQ(setups_of(booked, runs.runs[0]), (Setups{"S1", "S2"}));
    EXPECT_EQ(setups_of(booked, runs.runs[1]), (Setups{"S3"}));
    EXPECT_EQ(setups_of(booked, runs.runs[2]), (Setups{"S4"}));
}

TEST(Runs, ABackSightOnABenchmarkBeginsANewRun) {
    const Booked booked(bm + benchmark("TBM", "51"), {{"S1", "BM", "back", "1"},
                                                      {"S1", "TBM", "fore", "1"},
                                                      {"S2", "TBM", "back", "1"},
                                                      {"S2", "A", "fore", "1"}});
    EXPECT_EQ(booked.runs().runs.size(), 2u);
}

TEST(Runs, TheBackSightComesFirstWhereverItStandsInTheBook) {
    // A is read first and not known, so it is no back sight; BM is said to be one.
    const Booked booked(bm, {{"S1", "A", "-", "2"}, {"S1", "BM", "back", "1"}, {"S1", "B", "-", "1.5"}});
    const RunSetup setup = booked.runs().runs.at(0).setups.at(0);
    EXPECT_EQ(setup.readings, (std::vector<std::uint32_t>{1, 0, 2}));
}

TEST(Runs, WithoutABackSightToAKnownPointASetUpIsLeftOut) {
    const Booked booked(bm, {{"S1", "A", "back", "1"}, {"S1", "B", "fore", "1"}, {"S2", "BM", "inter", "1"}});
    const Runs runs = booked.runs();
    EXPECT_TRUE(runs.runs.empty());
    EXPECT_EQ(runs.left_out, (std::vector<std::int32_t>{0, 1}));
}

TEST(Runs, SlopedSetUpsStandForThemselvesAndMatchedOnesNowhere) {
    const std::string sloped =
        R"({"kind":"setup","name":"S1","instrument":"L","place":{"e":0,"n":0},"plane":{"main":0.01,"bearing":0}}
{"kind":"setup","name":"S2","instrument":"L","head":"S1","plane":{"main":null}}
{"kind":"place","point":"BM","e":0,"n":10}
{"kind":"place","point":"A","e":0,"n":20}
)";
    const Booked booked(bm + sloped, {{"S1", "BM", "-", "1"},
                                      {"S1", "nowhere", "-", "1"},
                                      {"S1", "A", "-", "1"},
                                      {"S2", "A", "-", "1"},
                                      {"S3", "A", "-", "1"},
                                      {"S3", "B", "-", "1"}});
    const Runs runs = booked.runs();
    ASSERT_EQ(runs.runs.size(), 2u);
    EXPECT_TRUE(runs.runs[0].sloped);
    EXPECT_EQ(runs.runs[0].setups[0].readings, (std::vector<std::uint32_t>{0, 2}));
    EXPECT_EQ(setups_of(booked, runs.runs[1]), (Setups{"S3"}));
    EXPECT_TRUE(runs.left_out.empty());
}

}  // namespace fallwright
