#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

std::string surface(const std::string& more) {
    return R"({"kind":"surface","name":"G","what":"ground",)" + more + "}\n";
}

Code refused_for(const std::string& more) {
    const Written book(surface(more));
    return !book->surfaces.empty() || book->findings.empty() ? Code::count_ : book->findings.front().code;
}

}  // namespace

TEST(ReadSurface, WhatItIsHeldAgainst) {
    const Written book(
        surface(R"("to":[{"level":24.6,"by":0.3,"name":"formation"},)"
                R"({"level":25,"at":[100,50],"main":"1 in 80 fall","cross":-0.02,"bearing":90},)"
                R"({"level":25,"at":"gully","main":0.01},{"surface":"old"}],"strip":0.15,"bulking":"25 %",)"
                R"("shrinkage":0.1)") +
        R"({"kind":"surface","name":"old","what":"old ground","to":{"level":1}})" + "\n");
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const SurfaceEntry& entry = book->surfaces.at(0);
    ASSERT_EQ(entry.to.size(), 4u);
    EXPECT_EQ(entry.to[0].level.value, 24.6);
    EXPECT_EQ(entry.to[0].by, 0.3);
    EXPECT_FALSE(entry.to[0].sloped);
    EXPECT_EQ(book.name(entry.to[0].name), "formation");
    EXPECT_DOUBLE_EQ(entry.to[1].main, -1.0 / 80);
    EXPECT_EQ(entry.to[1].at[1].value, 50);
    EXPECT_EQ(entry.to[1].bearing, 90);
    EXPECT_EQ(book.name(entry.to[2].place), "gully");
    EXPECT_TRUE(entry.to[2].sloped);
    EXPECT_EQ(book.name(entry.to[3].surface), "old");
    EXPECT_DOUBLE_EQ(entry.bulking, 0.25);
    EXPECT_EQ(entry.shrinkage, 0.1);
    EXPECT_EQ(entry.strip, 0.15);
    EXPECT_EQ(book->surfaces.at(1).to.size(), 1u);
}

TEST(ReadSurface, GridEdgeAndTheRest) {
    const Written book(surface(R"("grid":10,"bearing":30,"edge":"kerbed","outlets":["g1"],)"
                               R"("flatness":["din-18202-row-3"],"contours":0.1)"));
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const SurfaceEntry& entry = book->surfaces.at(0);
    EXPECT_EQ(entry.grid[1].value, 10);
    EXPECT_EQ(entry.bearing.value, 30);
    EXPECT_EQ(entry.edge, SurfaceEdge::Kerbed);
    EXPECT_EQ(entry.outlets.size(), 1u);
    EXPECT_EQ(entry.flatness.size(), 1u);
    EXPECT_EQ(entry.contours.value, 0.1);
    EXPECT_EQ(Written(surface(R"("grid":[10,5])"))->surfaces.at(0).grid[1].value, 5);
}

TEST(ReadSurface, LengthsAreOfTheBooksUnit) {
    const Written book(surface(R"("to":{"level":10,"at":[100,0],"by":1},"grid":50)"), R"(,"unit":"ft")");
    const SurfaceEntry& entry = book->surfaces.at(0);
    EXPECT_DOUBLE_EQ(entry.grid[0].value, 50 * 0.3048);
    EXPECT_DOUBLE_EQ(entry.to.at(0).at[0].value, 30.48);
    EXPECT_DOUBLE_EQ(entry.to[0].by, 0.3048);
}

TEST(ReadSurface, WhatCannotBeIsRefusedForItsReason) {
    EXPECT_EQ(refused_for(R"("to":{})"), Code::MissingField);
    EXPECT_EQ(refused_for(R"("to":{"level":1,"surface":"old"})"), Code::MissingField);
    EXPECT_EQ(refused_for(R"("to":{"surface":"old","main":0.1})"), Code::ValueTwice);
    EXPECT_EQ(refused_for(R"("to":{"level":1,"main":0.1})"), Code::MissingField);
    EXPECT_EQ(refused_for(R"("to":{"surface":"G"})"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("to":5)"), Code::WrongType);
    EXPECT_EQ(refused_for(R"("to":[5])"), Code::WrongType);
    EXPECT_EQ(refused_for(R"("grid":0)"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("grid":[1,-1])"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("grid":[1])"), Code::WrongType);
    EXPECT_EQ(refused_for(R"("strip":-0.1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("bulking":-0.1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("shrinkage":1)"), Code::OutOfRange);
    EXPECT_EQ(refused_for(R"("bearing":10,"towards":"A")"), Code::ValueTwice);
    EXPECT_EQ(refused_for(R"("edge":"steep")"), Code::WrongType);
    EXPECT_EQ(refused_for(R"("breaklines":["a","b"])"), Code::WrongType);
}

TEST(ReadSurface, OneHeldAgainstASurfaceThatIsMissingIsLeftOut) {
    const Written book(surface(R"("to":{"surface":"old"})") +
                       R"({"kind":"surface","name":"old","what":"x","to":{"surface":"older"}})" + "\n");
    EXPECT_TRUE(book->surfaces.empty());
    ASSERT_EQ(book->findings.size(), 2u);
    EXPECT_EQ(book->findings[0].code, Code::UnknownReference);
}

}  // namespace fallwright
