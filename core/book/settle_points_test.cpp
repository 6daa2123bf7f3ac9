#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

const std::string kit = R"({"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"line","name":"D1","chambers":[{"name":"MH1","ch":20,"in":9}]}
{"kind":"line","name":"lane 2"}
)";
const std::string setup = R"({"kind":"setup","name":"S","instrument":"L"}
)";

std::string on_line(double ch, const std::string& what, const std::string& more = "") {
    return R"({"kind":"reading","line":"D1","ch":)" + std::to_string(ch) + R"(,"what":")" + what +
           R"(","staff":1)" + more + "}\n";
}

std::string of_point(const std::string& text) {
    return R"({"kind":"reading","point":")" + text + R"(","staff":1})" + "\n";
}

std::string point_of(const Written& book, std::size_t i) {
    return book.name(book->readings.at(i).point);
}

}  // namespace

// Contract section 1, its own examples, and the limit of an offset.
TEST(LinePointName, HasChainageOffsetAndWhat) {
    EXPECT_EQ(line_point_name("D1", 8, 0, "laid"), "D1 8.000 laid");
    EXPECT_EQ(line_point_name("R1", 40, -3.5, "ground"), "R1 40.000 L3.500 ground");
    EXPECT_EQ(line_point_name("R1", -0.25, 3.5, ""), "R1 -0.250 R3.500 ground");
    EXPECT_EQ(line_point_name("R1", 0.0004, 0.000499, "peg"), "R1 0.000 peg");
    EXPECT_EQ(line_point_name("R1", -0.0004, -0.0005, "peg"), "R1 0.000 L0.001 peg");
}

TEST(SettlePoints, ATextThatReadsLikeAPointOnALineIsThatPoint) {
    const Written book(
        kit + setup + of_point("D1 8.000 laid") + of_point("lane 2 1.500 L0.250 top of kerb") +
        R"({"kind":"reading","line":"lane 2","ch":1.5,"off":-0.25,"what":"top of kerb","staff":1}
)");
    EXPECT_EQ(book.name(book->readings[0].line), "D1");
    EXPECT_EQ(book->readings[0].ch, 8);
    EXPECT_EQ(book.name(book->readings[0].what), "laid");
    EXPECT_EQ(book->readings[1].off, -0.25);
    EXPECT_EQ(book->readings[1].point, book->readings[2].point);
}

TEST(SettlePoints, OnlyTheNameTheToolWouldWriteIsThatPoint) {
    for (const char* text : {"D1 8 laid", "D1 8.0000 laid", "D1 08.000 laid", "D1  8.000 laid", "D1 8.000",
                             "D2 8.000 laid", "D1 0x8.000 laid", "D1 nan laid", "D1 inf laid", "D1 1e3 laid",
                             "D1 -0.000 laid", "D1 8.000 L1.000", "d1 8.000 laid"}) {
        const Written book(kit + setup + of_point(text));
        EXPECT_EQ(book->readings.at(0).line, no_name) << text;
        EXPECT_EQ(point_of(book, 0), text);
    }
}

TEST(SettlePoints, InFeetTheNameIsInFeet) {
    const Written book(kit + setup + of_point("D1 100.000 R10.000 peg"), R"(,"unit":"ft")");
    EXPECT_DOUBLE_EQ(book->readings[0].ch, 30.48);
    EXPECT_DOUBLE_EQ(book->readings[0].off, 3.048);
    EXPECT_EQ(point_of(book, 0), "D1 100.000 R10.000 peg");
}

TEST(SettlePoints, PlainLaidAtAChamberIsLaidOut) {
    const Written book(kit + setup + on_line(20.0004, "laid") + on_line(20, "laid in") +
                       on_line(20.001, "laid") + on_line(20, "bed"));
    EXPECT_EQ(point_of(book, 0), "D1 20.000 laid out");
    EXPECT_EQ(point_of(book, 1), "D1 20.000 laid in");
    EXPECT_EQ(point_of(book, 2), "D1 20.001 laid");
    EXPECT_EQ(point_of(book, 3), "D1 20.000 bed");
    EXPECT_EQ(book.count(Code::LaidAtChamber), 1);
}

TEST(SettlePoints, RelaidSurfacesAreCountedFromTheOldest) {
    const auto relaid = [](const std::string& stretch) {
        return R"({"kind":"relaid","line":"D1","what":"laid")" + stretch + "}\n";
    };
    const Written book(kit + setup + on_line(5, "laid") + on_line(15, "laid") + on_line(5, "bed") +
                       relaid(R"(,"from":0,"to":10)") + on_line(5, "laid") + relaid("") + on_line(5, "laid") +
                       on_line(15, "laid"));
    EXPECT_EQ(point_of(book, 0), "D1 5.000 laid (1)");
    EXPECT_EQ(point_of(book, 1), "D1 15.000 laid (1)");
    EXPECT_EQ(point_of(book, 2), "D1 5.000 bed");
    EXPECT_EQ(point_of(book, 3), "D1 5.000 laid (2)");
    EXPECT_EQ(point_of(book, 4), "D1 5.000 laid");
    EXPECT_EQ(point_of(book, 5), "D1 15.000 laid");
    EXPECT_TRUE(book->readings[3].older);
    EXPECT_FALSE(book->readings[4].older);
}

TEST(SettlePoints, TheEndsOfARelaidStretchBelongToIt) {
    const Written book(kit + setup + on_line(10, "laid") + on_line(10.001, "laid") +
                       R"({"kind":"relaid","line":"D1","what":"laid","from":5,"to":10}
)");
    EXPECT_TRUE(book->readings[0].older);
    EXPECT_FALSE(book->readings[1].older);
}

TEST(SettlePoints, RelaidGoesByTimeNotByLine) {
    const Written book(kit + setup + on_line(5, "laid", R"(,"at":"2026-05-04T12:00:00Z")") +
                       R"({"kind":"relaid","line":"D1","what":"laid","at":"2026-05-04T11:00:00Z"}
)");
    EXPECT_FALSE(book->readings[0].older);
}

TEST(SettlePoints, ASetUpOverAPointOnALineStandsThere) {
    const Written book(kit +
                       R"({"kind":"setup","name":"S","instrument":"L","place":{"point":"D1 8.000 R2.000 peg"}}
{"kind":"setup","name":"T","instrument":"L","place":{"point":"somewhere else"}}
)");
    EXPECT_EQ(book->setups[0].position.kind, Position::Kind::OnLine);
    EXPECT_EQ(book->setups[0].position.off, 2);
    EXPECT_EQ(book->setups[1].position.kind, Position::Kind::AtPoint);
}

}  // namespace fallwright
