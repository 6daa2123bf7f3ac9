#include "book/join.h"

#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

const std::string laser = R"({"kind":"instrument","name":"L","type":"rotating-laser"}
)";

std::string setup(const std::string& name, const std::string& more = "") {
    return R"({"kind":"setup","name":")" + name + R"(","instrument":"L")" + more + "}\n";
}

std::string reading(const std::string& point, const std::string& more = "") {
    return R"({"kind":"reading","point":")" + point + R"(","staff":1)" + more + "}\n";
}

std::string benchmark(const std::string& point, const std::string& level, const std::string& more = "") {
    return R"({"kind":"benchmark","point":")" + point + R"(","level":)" + level + more + "}\n";
}

Result<std::string> join(const std::string& a, const std::string& b) {
    return join_books({{"north", Written::first_line() + a}, {"south", Written::first_line() + b}});
}

Written joined(const std::string& a, const std::string& b) {
    const std::string text = *join(a, b);
    return Written(text.substr(text.find('\n') + 1));
}

}  // namespace

TEST(Join, EqualEntriesWithoutIdAreOneAcrossBooksAndAsManyAsInTheOneThatHasMore) {
    const std::string both = laser + setup("S") + reading("A") + reading("A");
    EXPECT_EQ(joined(both, both)->readings.size(), 2u);
    EXPECT_EQ(joined(both, both + reading("A"))->readings.size(), 3u);
    EXPECT_EQ(*join(both, both), *join(both, ""));
    EXPECT_EQ(*join(both, ""), *join_books({{"north", *join(both, "")}}));
}

TEST(Join, AReadingStaysInTheSetUpItWasReadIn) {
    // In order of time the second crew's set-up comes between.
    const std::string north = laser + setup("N", R"(,"at":"2026-05-04T08:00:00Z")") +
                              reading("A", R"(,"at":"2026-05-04T10:00:00Z")") +
                              reading("B", R"(,"setup":null)") + reading("C", R"(,"setup":"")");
    const std::string south = laser + setup("S", R"(,"at":"2026-05-04T09:00:00Z")") + reading("D");
    const Written book = joined(north, south);
    ASSERT_EQ(book->readings.size(), 4u);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(book.name(book->readings[i].setup), "N");
    EXPECT_EQ(book.name(book->readings[3].setup), "S");
}

TEST(Join, WithoutATimeOfItsOwnAnEntryKeepsTheOneItHad) {
    const std::string north = R"({"kind":"remark","text":"a","at":"2026-05-04T08:00:00+01:00"}
{"kind":"remark","text":"b"}
)";
    const std::string south = R"({"kind":"remark","text":"before all"}
{"kind":"remark","text":"c","at":"2026-05-04T09:00:00Z"}
{"kind":"remark","text":"d"}
)";
    const Written book = joined(north, south);
    std::vector<std::string> texts;
    std::vector<Instant> times;
    for (const Remark& remark : book->remarks) {
        texts.push_back(book.name(remark.text));
        times.push_back(book->entries[remark.entry].at);
    }
    EXPECT_EQ(texts, (std::vector<std::string>{"before all", "a", "b", "c", "d"}));
    EXPECT_EQ(times[0], before_all);
    EXPECT_EQ(times[1], parse_time("2026-05-04T07:00:00Z"));
    EXPECT_EQ(times[2], times[1]);
    EXPECT_EQ(times[4], parse_time("2026-05-04T09:00:00Z"));
}

TEST(Join, AStrikeByLineNumberFollowsItsEntry) {
    const std::string strike = R"({"kind":"strike","of":"#2","why":"w"}
)";
    const Written book = joined(benchmark("A", "1") + benchmark("B", "2"), benchmark("C", "3") + strike);
    ASSERT_EQ(book->benchmarks.size(), 2u);
    EXPECT_EQ(book.name(book->benchmarks[1].point), "B");
    EXPECT_TRUE(book->findings.empty());
}

TEST(Join, AStrikeThatLedToNothingLeadsToNothing) {
    // #3 is a line below the strike, #9 none: in the joined book both numbers name lines of the other crew.
    const std::string astray = R"({"kind":"strike","of":"#3","why":"w"}
{"kind":"strike","of":"#9","why":"w"}
)";
    std::string many;
    for (int i = 0; i < 12; ++i) many += benchmark("B" + std::to_string(i), "1");
    const Written book = joined(many, astray);
    EXPECT_EQ(book->benchmarks.size(), 12u);
    EXPECT_EQ(book.count(Code::UnknownOf), 2);
    const std::string once = *join(many, astray);
    EXPECT_EQ(once, *join_books({{"once", once}, {"again", once}}));
}

TEST(Join, ATornLineThatWasStruckIsGoneAndItsStrikeStrikesNothingElse) {
    const std::string torn = "{\"kind\":\"benchm\n" + std::string(R"({"kind":"strike","of":"#2","why":"torn"}
)");
    const Written book = joined(benchmark("A", "1"), torn + benchmark("B", "2"));
    EXPECT_EQ(book->benchmarks.size(), 2u);
    EXPECT_TRUE(book->findings.empty());
}

TEST(Join, LinesThatCannotBeReadStaySo) {
    const std::string twice = benchmark("A", "1", R"(,"level":2)");
    const std::string long_line = benchmark("B", "1" + std::string(70000, ' '));
    const Written book = joined(twice + long_line + "{\"kind\n", benchmark("C", "3"));
    ASSERT_EQ(book->benchmarks.size(), 1u);
    EXPECT_EQ(book.name(book->benchmarks[0].point), "C");
    EXPECT_EQ(book.count(Code::RepeatedKey), 1);
    EXPECT_EQ(book.count(Code::LineTooLong), 1);
    EXPECT_EQ(book.count(Code::TornLine), 1);
}

TEST(Join, NamedThingsWithOneContentStayOnceWithTwoNothingIsJoined) {
    const std::string tested = R"({"kind":"instrument","name":"L","type":"rotating-laser","tilt_sd":1e-5}
)";
    EXPECT_EQ(joined(laser, R"({"kind":"instrument","id":"x","by":"Ada","name":"L","type":"rotating-laser"}
)")
                  ->instruments.size(),
              1u);
    const Result<std::string> conflict = join(laser, tested);
    ASSERT_FALSE(conflict);
    EXPECT_EQ(conflict.finding().code, Code::JoinConflict);
    EXPECT_EQ(conflict.finding().about, (std::vector<std::string>{"north", "south", "instrument L"}));
    const Result<std::string> ids =
        join(benchmark("A", "1", R"(,"id":"x")"), benchmark("A", "2", R"(,"id":"x")"));
    ASSERT_FALSE(ids);
    EXPECT_EQ(ids.finding().about.back(), "x");
}

TEST(Join, BooksOfDifferentUnitDatumOrCurvatureAreNotJoined) {
    for (const char* other : {R"(,"unit":"ft")", R"(,"datum":"sea")", R"(,"curvature":false)"}) {
        const Result<std::string> refused =
            join_books({{"north", Written::first_line()}, {"south", Written::first_line(other)}});
        ASSERT_FALSE(refused) << other;
        EXPECT_EQ(refused.finding().code, Code::JoinConflict);
    }
    EXPECT_TRUE(
        join_books({{"north", Written::first_line()}, {"south", Written::first_line(R"(,"title":"t")")}}));
    const Result<std::string> none = join_books({{"north", Written::first_line()}, {"south", "{}\n"}});
    ASSERT_FALSE(none);
    EXPECT_EQ(none.finding().code, Code::NotABook);
    EXPECT_EQ(none.finding().about, (std::vector<std::string>{"south"}));
}

}  // namespace fallwright
