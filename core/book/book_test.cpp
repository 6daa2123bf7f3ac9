#include "book/book.h"

#include <gtest/gtest.h>

#include "book/join.h"
#include "book/written.h"

namespace fallwright {

namespace {

using std::string_literals::operator""s;

const std::string first = Written::first_line();
const std::string benchmark = R"({"kind":"benchmark","id":"b","point":"BM","level":50})";
const std::string amend = R"({"kind":"amend","of":"b","set":{"level":51},"why":"w"})";

double level_in(const std::string& text) {
    const auto book = read_book(text);
    return !book || (*book)->benchmarks.empty() ? -1 : (*book)->benchmarks[0].level.metres();
}

}  // namespace

TEST(Book, LinesMayEndAsTheyLike) {
    EXPECT_EQ(level_in("\xEF\xBB\xBF" + first + benchmark), 50);
    EXPECT_EQ(level_in(first + "\r\n \t\r\n" + benchmark + " \t\r\n" + amend + "\r\n\r\n"), 51);
    // A byte order mark elsewhere is no blank.
    EXPECT_EQ(level_in(first + "\xEF\xBB\xBF" + benchmark), -1);
}

// After a crash a block may read as NULs: a whole line before it counts, also where it amends or is joined.
TEST(Book, NulsBehindAWholeLineDoNoHarm) {
    const std::string text = first + benchmark + "\0\0\0\n"s + amend + "\0\r\0\n"s;
    const auto book = read_book(text);
    EXPECT_EQ((*book)->benchmarks.at(0).level.metres(), 51);
    EXPECT_TRUE((*book)->findings.empty());
    EXPECT_EQ(level_in(*join_books({{"a", text}, {"b", text}})), 51);
}

TEST(Book, NothingBehindANulIsLostWithoutAWord) {
    const auto book = read_book(first + benchmark + "\0"s + amend + "\n"s);
    ASSERT_EQ((*book)->findings.size(), 1u);
    EXPECT_EQ((*book)->findings[0].code, Code::TornLine);
}

TEST(Book, LinesAreCountedAsAnEditorCountsThem) {
    const Written book("\n\n" + benchmark + "\n{\n\n{\"kind\":\"remark\",\"text\":\"x\"}");
    ASSERT_EQ(book->entries.size(), 4u);
    EXPECT_EQ(book->entries[1].line, 4u);
    EXPECT_EQ(book->id_of(1), "b");
    EXPECT_EQ(book->id_of(2), "#5");
    EXPECT_EQ(book->id_of(3), "#7");
    EXPECT_TRUE(book->entries[2].refused);
}

TEST(Book, OnlyTheFirstLineMakesAFileNoBook) {
    for (const std::string& text :
         {""s, "\n"s + first, R"({"kind":"book","format":"fallwright","version":2})"s,
          R"({"kind":"book","format":"other","version":1})"s, R"({"format":"fallwright","version":1})"s,
          R"({"kind":"book","format":"fallwright","version":"1"})"s, "[]"s, "\0"s}) {
        const auto book = read_book(text);
        ASSERT_FALSE(book) << text;
        EXPECT_EQ(book.finding().code, Code::NotABook);
    }
    EXPECT_TRUE(read_book(R"({"version":1.0,"kind":"book","format":"fallwright"})"));
}

TEST(Book, ItsOwnLineSaysUnitAndCurvature) {
    const Written metres("");
    EXPECT_TRUE(metres->curvature);
    EXPECT_EQ(metres->metres_per_unit(), 1);
    const Written feet(
        "", R"(,"unit":"ft","curvature":false,"title":"Lane","datum":"site","at":"2026-05-04T08:00:00Z")");
    EXPECT_FALSE(feet->curvature);
    EXPECT_EQ(feet->metres_per_unit(), 0.3048);
    EXPECT_DOUBLE_EQ(feet->in_unit(0.3048), 1);
    EXPECT_EQ(feet->title, "Lane");
    EXPECT_EQ(feet->datum, "site");
    EXPECT_EQ(feet->entries[0].at, parse_time("2026-05-04T08:00:00Z"));
}

TEST(Book, ByNameFindsTheIndexAndOutlivesWhatItWasMadeOf) {
    const Written book(R"({"kind":"line","name":"D1"}
{"kind":"line","name":"D2"}
)");
    std::vector<LineEntry> lines = book->lines;
    const ByName line_of(lines);
    lines.clear();
    EXPECT_EQ(line_of(book->names.find("D2")), 1);
    EXPECT_EQ(line_of(book->names.find("line")), -1);
    EXPECT_EQ(line_of(no_name), -1);
}

TEST(Book, UnknownKindsAndFieldsAreKeptAndSaid) {
    const Written book(R"({"kind":"weather","rain":true,"id":"w"}
{"kind":"book","format":"fallwright","version":1,"unit":"ft"}
{"kind":"remark","text":"x","colour":"red"}
)");
    EXPECT_EQ(book.count(Code::UnknownKind), 2);
    EXPECT_EQ(book.said(Code::UnknownKind).about.front(), "w");
    EXPECT_FALSE(book->entries[1].refused);
    EXPECT_EQ(book->unit, Unit::Metre);
    EXPECT_EQ(book.count(Code::UnknownField), 1);
    EXPECT_EQ(book->remarks.size(), 1u);
}

}  // namespace fallwright
