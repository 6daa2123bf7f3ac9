#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

struct ReadFigure {
    Written book;
    explicit ReadFigure(const std::string& value)
        : book(R"({"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S","instrument":"L","clamp":1.2}
{"kind":"reading","point":"A",)" +
               value + "}\n") {}

    bool kept() const { return !book->readings.empty(); }
    const Figure& figure() const { return book->readings.at(0).figure; }
    Code refused_for() const {
        return kept() || book->findings.empty() ? Code::count_ : book->findings.front().code;
    }
};

Decimal m(double metres) {
    return Decimal::metres(metres);
}

}  // namespace

TEST(ReadFigure, ANegativeFigureMeansAStaffUpsideDown) {
    for (const char* value :
         {R"("staff":-1.5)", R"("staff":1.5,"inverted":true)", R"("staff":-1.5,"inverted":true)"}) {
        const ReadFigure read(value);
        EXPECT_EQ(read.figure().form, Form::Staff);
        EXPECT_TRUE(read.figure().inverted) << value;
        EXPECT_EQ(read.figure().a, m(1.5)) << value;
    }
    EXPECT_FALSE(ReadFigure(R"("staff":0)").figure().inverted);
    EXPECT_FALSE(ReadFigure(R"("staff":-0.0)").figure().inverted);
}

TEST(ReadFigure, MarksWithWhatTheReceiverShows) {
    const ReadFigure high(R"("mark":1.5,"high":0.012)");
    EXPECT_EQ(high.figure().form, Form::Mark);
    EXPECT_EQ(high.figure().deviation, Deviation::High);
    EXPECT_EQ(high.figure().b, m(0.012));
    EXPECT_EQ(ReadFigure(R"("mark":1.5,"low":0)").figure().deviation, Deviation::Low);
    const ReadFigure offset(R"("mark":-1.5,"offset":-0.004)");
    EXPECT_EQ(offset.figure().deviation, Deviation::Offset);
    EXPECT_EQ(offset.figure().b, m(-0.004));
    EXPECT_EQ(offset.figure().a, m(1.5));
    EXPECT_TRUE(offset.figure().inverted);
}

TEST(ReadFigure, HighAloneIsAtTheClamp) {
    const ReadFigure read(R"("high":0.003,"inverted":true)");
    EXPECT_EQ(read.figure().form, Form::Clamp);
    EXPECT_EQ(read.figure().b, m(0.003));
    EXPECT_TRUE(read.figure().inverted);
    EXPECT_EQ(ReadFigure(R"("offset":0.003)").refused_for(), Code::NoValue);
}

TEST(ReadFigure, ThreeWiresOfAStaffUpsideDownAreAllNegative) {
    const ReadFigure wires(R"("top":-1.6,"staff":-1.5,"bottom":-1.4)");
    EXPECT_EQ(wires.figure().form, Form::ThreeWires);
    EXPECT_TRUE(wires.figure().inverted);
    EXPECT_EQ(wires.figure().a, m(1.6));
    EXPECT_EQ(wires.figure().c, m(1.4));
    EXPECT_EQ(ReadFigure(R"("top":0.1,"staff":-0.1,"bottom":-0.3)").refused_for(), Code::WireOrder);
    // The foot itself is on neither side.
    EXPECT_FALSE(ReadFigure(R"("top":0.2,"staff":0.1,"bottom":0)").figure().inverted);
}

TEST(ReadFigure, AValueGivenTwiceIsRefused) {
    for (const char* value :
         {R"("staff":1,"mark":1,"high":0)", R"("staff":1,"mark":1)", R"("staff":1,"high":0)",
          R"("mark":1,"high":0,"offset":0)", R"("top":2,"staff":1,"bottom":0,"high":0)",
          R"("top":2,"mark":1,"bottom":0)", R"("low":0.1,"offset":0.1)"})
        EXPECT_EQ(ReadFigure(value).refused_for(), Code::ValueTwice) << value;
    EXPECT_EQ(ReadFigure(R"("mark":1,"high":0,"low":0)").refused_for(), Code::HighAndLow);
    EXPECT_EQ(ReadFigure(R"("staff":1,"planned":true)").refused_for(), Code::ValueTwice);
}

TEST(ReadFigure, NullIsNotGiven) {
    EXPECT_EQ(ReadFigure(R"("staff":1.25,"mark":null,"high":null)").figure().a, m(1.25));
    EXPECT_EQ(ReadFigure(R"("staff":null)").refused_for(), Code::NoValue);
}

}  // namespace fallwright
