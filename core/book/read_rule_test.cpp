#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

std::string rule(const std::string& name, const std::string& values) {
    return R"({"kind":"rule","name":")" + name + R"(","values":{)" + values + "}}\n";
}

Code refused_for(const std::string& name, const std::string& values) {
    const Written book(rule(name, values));
    return book->findings.empty() ? Code::count_ : book->findings.front().code;
}

}  // namespace

TEST(ReadRule, HydraulicsInTheBooksUnitOrTheTradesWords) {
    const Written book(rule(
        "hydraulics", R"("roughness":0.0006,"viscosity":1.31e-6,"flow":"2.5 l/s","dwellings":3,"closets":4,)"
                      R"("fall":"1 in 80 fall","velocity":0.75,"drag":1,"source":"drawing 12")"));
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const HydraulicsRule& read = book->rules.at(0).hydraulics;
    EXPECT_EQ(read.roughness.value, 0.0006);
    EXPECT_FALSE(read.manning.has());
    EXPECT_EQ(read.viscosity.value, 1.31e-6);
    EXPECT_DOUBLE_EQ(read.flow.value, 0.0025);
    EXPECT_EQ(read.dwellings.value, 3);
    EXPECT_EQ(read.closets.value, 4);
    EXPECT_DOUBLE_EQ(read.fall.value, 0.0125);
    EXPECT_EQ(read.velocity.value, 0.75);
    EXPECT_EQ(read.drag.value, 1);
    EXPECT_EQ(book.name(read.source), "drawing 12");
}

TEST(ReadRule, HydraulicsOfABookInFeet) {
    const Written book(rule("hydraulics", R"("roughness":0.002,"flow":0.5,"velocity":"2 ft/s")"),
                       R"(,"unit":"ft")");
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const HydraulicsRule& read = book->rules.at(0).hydraulics;
    EXPECT_DOUBLE_EQ(read.roughness.value, 0.0006096);
    EXPECT_DOUBLE_EQ(read.flow.value, 0.5 * 0.028316846592);
    EXPECT_DOUBLE_EQ(read.velocity.value, 0.6096);
}

TEST(ReadRule, CautionsHoldLocalLimitsAndSentences) {
    const Written book(
        rule("cautions",
             R"("depth":1.25,"egress":1,"spoil":0.6,"source":"site rules","add":["call the gate first"])"));
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const CautionsRule& read = book->rules.at(0).cautions;
    EXPECT_EQ(read.depth.value, 1.25);
    EXPECT_EQ(read.egress.value, 1);
    EXPECT_EQ(read.spoil.value, 0.6);
    EXPECT_EQ(book.name(read.source), "site rules");
    ASSERT_EQ(read.add.size(), 1);
    EXPECT_EQ(book.name(read.add[0]), "call the gate first");
}

TEST(ReadRule, CoverTrenchAndSpoilOfALineOrOfAll) {
    const Written book(rule("cover D1", R"("least":2)") +
                           rule("trench", R"("width":3,"batter":0.5,"surround":0.5)") +
                           rule("spoil", R"("bulking":0.25,"load":300)"),
                       R"(,"unit":"ft")");
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    EXPECT_DOUBLE_EQ(book->rules.at(0).pipelay.least.value, 0.6096);
    EXPECT_DOUBLE_EQ(book->rules.at(1).pipelay.width.value, 0.9144);
    EXPECT_EQ(book->rules.at(1).pipelay.batter.value, 0.5);
    EXPECT_DOUBLE_EQ(book->rules.at(1).pipelay.surround.value, 0.1524);
    EXPECT_EQ(book->rules.at(2).pipelay.bulking.value, 0.25);
    EXPECT_DOUBLE_EQ(book->rules.at(2).pipelay.load.value, 300 * 0.028316846592);
}

// Figures of the National Grid and its shift to WGS 84: docs/formats/exchange.md names their source.
TEST(ReadRule, ProjectionByNamedEllipsoidInTheBooksUnit) {
    const Written book(rule("projection", R"("ellipsoid":"airy-1830","latitude":49,"longitude":-2,)"
                                          R"("scale":0.9996012717,"false_east":400000,"false_north":-100000,)"
                                          R"("shift":[446.448,-125.157,542.06],"turn":[0.1502,0.247,0.8421],)"
                                          R"("ppm":-20.4894)"));
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const ProjectionRule& read = book->rules.at(0).projection;
    EXPECT_TRUE(read.given());
    EXPECT_EQ(read.a.value, 6377563.396);
    EXPECT_EQ(read.inverse_flattening.value, 299.3249646);
    EXPECT_EQ(read.latitude.value, 49);
    EXPECT_EQ(read.longitude.value, -2);
    EXPECT_EQ(read.scale, 0.9996012717);
    EXPECT_EQ(read.false_east, 400000);
    EXPECT_EQ(read.false_north, -100000);
    EXPECT_TRUE(read.shifted);
    EXPECT_EQ(read.shift[1], -125.157);
    EXPECT_EQ(read.turn[2], 0.8421);
    EXPECT_EQ(read.ppm, -20.4894);
}

TEST(ReadRule, ProjectionByFiguresInFeet) {
    const Written book(rule("projection", R"("method":"transverse-mercator","a":20925646.3255,)"
                                          R"("inverse_flattening":298.257222101,"latitude":0,"longitude":9,)"
                                          R"("false_east":1000000)"),
                       R"(,"unit":"ft")");
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const ProjectionRule& read = book->rules.at(0).projection;
    EXPECT_NEAR(read.a.value, 6378137, 1e-4);
    EXPECT_DOUBLE_EQ(read.false_east, 304800);
    EXPECT_EQ(read.scale, 1);
    EXPECT_FALSE(read.shifted);
}

TEST(ReadRule, ProjectionThatCannotBeIsRefused) {
    const std::string origin = R"("latitude":0,"longitude":9)";
    EXPECT_EQ(refused_for("projection", origin), Code::MissingField);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","latitude":0)"), Code::MissingField);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"round",)" + origin), Code::OutOfRange);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","a":6378137,)" + origin), Code::ValueTwice);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","scale":10,)" + origin), Code::OutOfRange);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","latitude":91,"longitude":9)"),
              Code::OutOfRange);
    EXPECT_EQ(refused_for("projection", R"("a":6378,"inverse_flattening":298,)" + origin), Code::OutOfRange);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","shift":[1,2],)" + origin), Code::WrongType);
    EXPECT_EQ(refused_for("projection", R"("ellipsoid":"grs-80","method":"lambert",)" + origin),
              Code::WrongType);
}

TEST(ReadRule, WhatCannotBeIsRefusedForItsReason) {
    EXPECT_EQ(refused_for("hydraulics", R"("roughness":0.0006,"manning":0.013)"), Code::ValueTwice);
    EXPECT_EQ(refused_for("hydraulics", R"("roughness":-1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("manning":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("viscosity":-1e-6)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("flow":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("flow":1e200)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("flow":"2.5 l")"), Code::WrongType);
    EXPECT_EQ(refused_for("hydraulics", R"("flow":[1])"), Code::WrongType);
    EXPECT_EQ(refused_for("hydraulics", R"("closets":-1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("hydraulics", R"("fall":"steep")"), Code::WrongType);
    EXPECT_EQ(refused_for("hydraulics", R"("rougness":0.0006)"), Code::UnknownField);
    EXPECT_EQ(refused_for("cautions", R"("depth":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("cautions", R"("add":"one")"), Code::WrongType);
    EXPECT_EQ(refused_for("cautions", R"("off":true)"), Code::UnknownField);
    EXPECT_EQ(refused_for("cover", R"("least":-0.1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("cover D1", R"("most":1)"), Code::UnknownField);
    EXPECT_EQ(refused_for("trench", R"("width":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("trench", R"("batter":-1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("spoil", R"("load":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for("spoil", R"("bulking":-0.1)"), Code::OutOfRange);
}

}  // namespace fallwright
