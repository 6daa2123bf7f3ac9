#include <gtest/gtest.h>

#include "book/change.h"
#include "book/written.h"

namespace fallwright {

namespace {

const std::string benchmark = R"({"kind":"benchmark","id":"b","point":"BM","level":50}
)";

std::string amend(const std::string& of, const std::string& set, const std::string& more = "") {
    return R"({"kind":"amend","of":")" + of + R"(","set":)" + set + R"(,"why":"w")" + more + "}\n";
}

std::string strike(const std::string& of, const std::string& more = "") {
    return R"({"kind":"strike","of":")" + of + R"(","why":"w")" + more + "}\n";
}

// -1: no benchmark is left.
double level_in(const std::string& lines) {
    const Written book(lines);
    return book->benchmarks.empty() ? -1 : book->benchmarks[0].level.metres();
}

}  // namespace

TEST(Amend, AppliesInOrderOfTimeWhateverTheOrderOfLines) {
    const std::string late = amend("b", R"({"level":52})", R"(,"at":"2026-05-04T09:00:00Z")");
    const std::string early = amend("b", R"({"level":51})", R"(,"at":"2026-05-04T08:00:00Z")");
    EXPECT_EQ(level_in(benchmark + late + early), 52);
    EXPECT_EQ(level_in(benchmark + early + late), 52);
    // One time: ties by line. Times are compared as instants: 10:00 in +02:00 is 08:00 UTC.
    EXPECT_EQ(level_in(benchmark + early + amend("b", R"({"level":53})")), 53);
    EXPECT_EQ(
        level_in(benchmark + late + amend("b", R"({"level":54})", R"(,"at":"2026-05-04T10:00:00+02:00")")),
        52);
}

TEST(Amend, WasIsComparedWithWhatTheAmendsBeforeItLeft) {
    const std::string first = amend("b", R"({"level":51})", R"(,"was":{"level":50})");
    EXPECT_EQ(level_in(benchmark + first + amend("b", R"({"level":52})", R"(,"was":{"level":51})")), 52);
    const Written stale(benchmark + first + amend("b", R"({"level":52})", R"(,"was":{"level":50})"));
    EXPECT_EQ(stale->benchmarks[0].level.metres(), 51);
    EXPECT_EQ(stale.said(Code::AmendNotApplied).message, "was: level stands at 51, not at 50");
    // As JSON values: 50 and 50.0 are one, null and absent are one.
    EXPECT_EQ(level_in(benchmark + amend("b", R"({"level":51})", R"(,"was":{"level":50.0,"sd":null})")), 51);
}

TEST(Amend, NullRemovesAndIsKeptFromWhatIsRequired) {
    const Written book(R"({"kind":"benchmark","id":"b","point":"BM","level":50,"sd":0.01}
)" + amend("b", R"({"sd":null})"));
    EXPECT_EQ(book->benchmarks.at(0).sd, 0);
    const Written without(benchmark + amend("b", R"({"level":null})"));
    EXPECT_TRUE(without->benchmarks.empty());
    EXPECT_EQ(without.said(Code::MissingField).about.front(), "b");
}

TEST(Amend, MendsAnEntryThatWasLeftOut) {
    const std::string without = R"({"kind":"benchmark","id":"b","point":"BM"}
)";
    const Written book(without + amend("b", R"({"level":50})"));
    EXPECT_EQ(book->benchmarks.at(0).level.metres(), 50);
    EXPECT_TRUE(book->findings.empty());
    const Written torn("{\"kind\":\"benchmark\",\n" + amend("#2", R"({"level":50})"));
    EXPECT_EQ(torn.count(Code::AmendNotApplied), 1);
}

TEST(Amend, AnAmendmentCanItselfBeAmendedAndStruck) {
    const std::string wrong = R"({"kind":"amend","id":"a","of":"b","set":{"level":51},"why":"w"}
)";
    EXPECT_EQ(level_in(benchmark + wrong + amend("a", R"({"set":{"level":52}})")), 52);
    EXPECT_EQ(level_in(benchmark + wrong + strike("a")), 50);
    EXPECT_EQ(level_in(benchmark + wrong + strike("a", R"(,"id":"s")") + strike("s")), 51);
}

TEST(Amend, AStrikeOfWhatIsAmendedWins) {
    EXPECT_EQ(level_in(benchmark + strike("b") + amend("b", R"({"level":51})")), -1);
    EXPECT_EQ(level_in(benchmark + amend("b", R"({"level":51})") + strike("b")), -1);
}

TEST(Amend, WhatIsStruckIsSilentAndKeepsItsId) {
    const Written book(R"({"kind":"benchmark","id":"b","point":"BM","levle":50}
)" + strike("b") + benchmark);
    EXPECT_EQ(book.count(Code::MissingField) + book.count(Code::UnknownField), 0);
    EXPECT_TRUE(book->entries[1].struck && book->entries[1].refused);
    EXPECT_EQ(book.count(Code::DuplicateId), 1);
    EXPECT_TRUE(book->benchmarks.empty());
}

TEST(Amend, LinesAreNamedByNumberWhetherTheyHaveAnIdOrCanBeRead) {
    EXPECT_EQ(level_in("\n" + benchmark + strike("#3")), -1);
    EXPECT_EQ(level_in(benchmark + amend("#2", R"({"level":51})")), 51);
    const Written torn(R"({"kind":"benchm
)" + strike("#2"));
    EXPECT_TRUE(torn->findings.empty());
    for (const char* none : {"#", "#x", "#2x", "#0", "#-2", "#99", "#99999999999999999999", "#3", "BM", ""})
        EXPECT_EQ(Written(benchmark + strike(none)).count(Code::UnknownOf), 1) << none;
}

TEST(Amend, TheBooksOwnLineCanBeAmendedNotStruck) {
    const Written book(benchmark + amend("#1", R"({"title":"lane","unit":"ft"})") + strike("#1"));
    EXPECT_EQ(book->title, "lane");
    EXPECT_EQ(book->unit, Unit::Foot);
    EXPECT_NEAR(book->benchmarks.at(0).level.metres(), 15.24, 1e-12);
    EXPECT_EQ(book.count(Code::UnknownOf), 1);
}

TEST(Amend, WhatIsNoAmendmentChangesNothing) {
    for (const char* line :
         {R"({"kind":"amend","of":"b","why":"w"})", R"({"kind":"amend","set":{},"why":"w"})",
          R"({"kind":"amend","of":"b","set":[],"why":"w"})",
          R"({"kind":"amend","of":"b","set":{"level":51},"why":3})",
          R"({"kind":"amend","of":"b","set":{"level":51},"why":"w","was":[]})",
          R"({"kind":"strike","of":["b"],"why":"w"})"}) {
        const Written book(benchmark + line + "\n");
        EXPECT_EQ(book->benchmarks.at(0).level.metres(), 50) << line;
        EXPECT_EQ(book->findings.size(), 1u) << line;
    }
}

// The record of a job shows what stood before, why it was changed, and what was taken back.
TEST(Amend, EveryChangeIsKeptWithItsReasonAndWhatStoodBefore) {
    const std::string other = R"({"kind":"benchmark","id":"c","point":"C","level":49}
)";
    const Written book(benchmark + other + amend("b", R"({"level":51,"source":"plan"})") +
                       amend("b", R"({"level":52,"source":null})") + strike("#5") + strike("c") +
                       amend("b", R"({"level":53})", R"(,"was":{"level":99})"));
    const std::vector<BookChange> changes = changes_of(*book);
    ASSERT_EQ(changes.size(), 5u);
    const BookChange& first = changes[0];
    EXPECT_EQ(book->entries[first.of].line, 2u);
    EXPECT_EQ(first.why, "w");
    EXPECT_TRUE(first.applied && !first.strike && !first.undone);
    ASSERT_EQ(first.fields.size(), 2u);
    EXPECT_EQ(first.fields[0].name, "level");
    EXPECT_EQ(first.fields[0].before, "50");
    EXPECT_EQ(first.fields[0].after, "51");
    EXPECT_EQ(first.fields[1].before, "");
    EXPECT_EQ(first.fields[1].after, "\"plan\"");
    EXPECT_TRUE(changes[1].undone && !changes[1].applied);
    EXPECT_EQ(changes[1].fields[1].after, "");
    EXPECT_TRUE(changes[2].strike && changes[2].before.find("\"level\":52") != std::string::npos);
    const BookChange& struck = changes[3];
    EXPECT_EQ(struck.before, other.substr(0, other.size() - 1));
    ASSERT_EQ(struck.fields.size(), 2u);
    EXPECT_EQ(struck.fields[0].name, "level");
    EXPECT_EQ(struck.fields[0].before, "49");
    EXPECT_FALSE(changes[4].applied);
}

}  // namespace fallwright
