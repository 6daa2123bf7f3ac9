#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

const char* const laser = R"({"kind":"instrument","name":"L","type":"rotating-laser"}
)";

Code refused_for(const std::string& entry) {
    const Written book(laser + entry + "\n");
    return book->findings.empty() ? Code::count_ : book->findings.front().code;
}

}  // namespace

TEST(ReadDesign, ALineWithEverythingInFeet) {
    const Written book(
        R"({"kind":"line","name":"D1","use":"drain","start":100,"plan":[[10,20],[10,120]],"profile":[{"ch":100,"level":50},{"ch":150,"gradient":"1 in 100 fall","curve":10},{"ch":200,"under":"BM","by":3}],"flow":"against","crossfall":[0.02,"2.5 %"],"edges":[-3,4],"pipes":[{"from":100,"to":200,"bore":0.5,"wall":0.1,"bedding":0.5,"roughness":0.005,"collar":0.05}],"chambers":[{"name":"MH1","ch":100,"in":49,"out":48.9,"cover":55,"size":4}],"joins":{"line":"D2","ch":5,"by":"soffit"},"outlets":[200],"layers":[{"what":"base","thickness":0.5}],"whats":{"top":0.25}}
)",
        R"(,"unit":"ft")");
    constexpr double foot = 0.3048;
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    const LineEntry& line = book->lines.at(0);
    EXPECT_EQ(line.use, LineUse::Drain);
    EXPECT_DOUBLE_EQ(line.start, 100 * foot);
    EXPECT_DOUBLE_EQ(line.plan[1][1], 120 * foot);
    EXPECT_DOUBLE_EQ(line.profile[0].level.value, 50 * foot);
    EXPECT_DOUBLE_EQ(line.profile[1].gradient.value, -0.01);
    EXPECT_DOUBLE_EQ(line.profile[1].curve, 10 * foot);
    EXPECT_EQ(book.name(line.profile[2].under), "BM");
    EXPECT_DOUBLE_EQ(line.profile[2].by, 3 * foot);
    EXPECT_EQ(line.flow, Flow::Against);
    ASSERT_EQ(line.crossfall.along.size(), 1U);
    EXPECT_DOUBLE_EQ(line.crossfall.along[0].right, 0.025);
    EXPECT_DOUBLE_EQ(line.edges[0].value, -3 * foot);
    EXPECT_DOUBLE_EQ(line.pipes[0].roughness.value, 0.005 * foot);
    EXPECT_DOUBLE_EQ(line.pipes[0].collar.value, 0.05 * foot);
    EXPECT_DOUBLE_EQ(line.chambers[0].out.value, 48.9 * foot);
    EXPECT_DOUBLE_EQ(line.chambers[0].size.value, 4 * foot);
    EXPECT_TRUE(line.joins.at(0).by_soffit);
    EXPECT_DOUBLE_EQ(line.joins[0].ch, 5 * foot);
    EXPECT_DOUBLE_EQ(line.outlets.at(0), 200 * foot);
    EXPECT_DOUBLE_EQ(line.layers.at(0).thickness, 0.5 * foot);
    EXPECT_EQ(book.name(line.whats.at(0).what), "top");
    EXPECT_DOUBLE_EQ(line.whats[0].height, 0.25 * foot);
}

// A number rises to the right: the left side, counted outwards, falls.
TEST(ReadDesign, OneCrossfallIsTwoSidesOfOppositeSigns) {
    const Written book(R"({"kind":"line","name":"R1","crossfall":"2.5 % fall"}
)");
    ASSERT_EQ(book->lines.at(0).crossfall.along.size(), 1U);
    EXPECT_DOUBLE_EQ(book->lines[0].crossfall.along[0].right, -0.025);
    EXPECT_DOUBLE_EQ(book->lines[0].crossfall.along[0].left, 0.025);
    EXPECT_FALSE(Written(R"({"kind":"line","name":"R1"}
)")
                     ->lines.at(0)
                     .crossfall.given());
}

TEST(ReadDesign, CrossfallAlongALineIsAListOfObjects) {
    const Written book(
        R"({"kind":"line","name":"R1","crossfall":[{"ch":10,"left":"2 % fall","right":0.02},{"ch":30,"right":"-4 %"}]}
{"kind":"line","name":"R2","crossfall":[{"ch":10,"left":0.02}]}
{"kind":"line","name":"R3","crossfall":[]}
)");
    ASSERT_EQ(book->lines.size(), 1U);
    const std::vector<CrossfallAt>& along = book->lines[0].crossfall.along;
    ASSERT_EQ(along.size(), 2U);
    EXPECT_DOUBLE_EQ(along[0].left, -0.02);
    EXPECT_DOUBLE_EQ(along[1].ch, 30);
    EXPECT_DOUBLE_EQ(along[1].left, 0.04);
    EXPECT_DOUBLE_EQ(along[1].right, -0.04);
}

TEST(ReadDesign, TolerancesTakeWhatTheyLeaveOpenFromPresets) {
    const Written book(
        R"({"kind":"line","name":"R1","use":"road","layers":[{"what":"finished","thickness":0.04},{"what":"base","thickness":0.1}]}
{"kind":"tolerance","line":"R1","what":"finished","above":0.004,"preset":["no such","pavement","straightedge"]}
{"kind":"tolerance","line":"R1","preset":["pavement","tr34-fm1"]}
)");
    ASSERT_EQ(book->tolerances.size(), 3U);  // finished, base, formation
    EXPECT_FALSE(book->tolerances[0].below.has());
    EXPECT_DOUBLE_EQ(book->tolerances[0].above.value, 0.004);
    EXPECT_DOUBLE_EQ(book->tolerances[0].even.gap.value, 0.003);
    EXPECT_DOUBLE_EQ(book->tolerances[1].below.value, -0.015);
    EXPECT_EQ(book->name(book->tolerances[2].what), "formation");
    EXPECT_DOUBLE_EQ(book->tolerances[2].above.value, 0.020);
    int unknown = 0;
    for (const Finding& each : book->findings) unknown += each.code == Code::UnknownPreset ? 1 : 0;
    EXPECT_EQ(unknown, 2);
}

TEST(ReadDesign, ChecksAndWishesAndRules) {
    const Written book(std::string(laser) +
                       R"({"kind":"line","name":"D1"}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"tolerance","line":"D1","what":"laid","below":-0.01,"above":0.02,"fall_min":"1 in 150 fall","fall_max":0.02,"source":"drawing 7"}
{"kind":"trial","name":"T","instrument":"L","limit":0.002,"shots":[{"station":"A","peg":"P","dist":30,"facing":90,"turn":"a","mark":1.5,"low":0.003}]}
{"kind":"surface","name":"G","points":["a","b","c"],"breaklines":[["a","b"],["b","c"]],"inside":[[0,0],[1,0],[1,1]]}
{"kind":"want","line":"D1","setup":"S","every":5,"what":["laid","bed"]}
{"kind":"rule","name":"misclosure","values":{"by":"sets","a":0.005}}
{"kind":"rule","name":"confidence","values":{"p":0.9}}
{"kind":"rule","name":"of-a-later-version","values":{"anything":1}}
{"kind":"relaid","line":"D1","what":"laid","from":10,"to":20,"why":"too high"}
{"kind":"adjusted","instrument":"L","why":"workshop"}
)");
    ASSERT_TRUE(book->findings.empty()) << book->findings.front().message;
    EXPECT_DOUBLE_EQ(book->tolerances.at(0).fall_min.value, 1.0 / 150);
    EXPECT_EQ(book->trials.at(0).limit, 0.002);
    const Shot& shot = book->trials[0].shots.at(0);
    EXPECT_EQ(shot.facing.value, 90);
    EXPECT_EQ(book.name(shot.turn), "a");
    EXPECT_EQ(shot.figure.deviation, Deviation::Low);
    EXPECT_EQ(book->surfaces.at(0).breaklines.at(1).size(), 2u);
    EXPECT_EQ(book->surfaces[0].inside.at(2)[1], 1);
    EXPECT_EQ(book.name(book->wants.at(0).whats.at(1)), "bed");
    EXPECT_EQ(book.name(book->rules.at(0).by), "sets");
    EXPECT_EQ(book->rules[0].a.value, 0.005);
    EXPECT_EQ(book->rules[1].p.value, 0.9);
    EXPECT_EQ(book->relaids.at(0).to.value, 20);
    EXPECT_EQ(book.name(book->adjusted.at(0).why), "workshop");
}

TEST(ReadDesign, ATrialHasItsUsualLimit) {
    const Written book(std::string(laser) + R"({"kind":"trial","name":"T","instrument":"L","shots":[]}
)");
    EXPECT_EQ(book->trials.at(0).limit, 0.0015);
}

TEST(ReadDesign, WhatCannotBeIsRefusedForItsReason) {
    const std::string line = R"({"kind":"line","name":"D1",)";
    EXPECT_EQ(refused_for(line + R"("profile":[{"ch":0,"gradient":0.01}]})"), Code::OutOfRange);
    EXPECT_EQ(refused_for(line + R"("profile":[{"ch":0,"level":1,"curve":-1}]})"), Code::OutOfRange);
    EXPECT_EQ(refused_for(line + R"("profile":[{"ch":0}]})"), Code::MissingField);
    EXPECT_EQ(refused_for(line + R"("pipes":[{"from":0,"to":1,"bore":0}]})"), Code::OutOfRange);
    EXPECT_EQ(refused_for(line + R"("layers":[{"what":"base","thickness":0}]})"), Code::OutOfRange);
    EXPECT_EQ(refused_for(line + R"("crossfall":[0.02]})"), Code::WrongType);
    EXPECT_EQ(refused_for(line + R"("whats":{"top":"high"}})"), Code::WrongType);
    EXPECT_EQ(refused_for(R"({"kind":"surface","name":"G"})"), Code::MissingField);
    EXPECT_EQ(refused_for(R"({"kind":"want","every":5})"), Code::MissingField);
    EXPECT_EQ(refused_for(R"({"kind":"rule","name":"misclosure","values":{"by":"feel"}})"), Code::WrongType);
    EXPECT_EQ(refused_for(R"({"kind":"rule","name":"misclosure","values":{"b":1}})"), Code::UnknownField);
    const std::string trial =
        R"({"kind":"trial","name":"T","instrument":"L","shots":[{"station":"A","peg":"P")";
    EXPECT_EQ(refused_for(trial + "}]}"), Code::NoValue);
    EXPECT_EQ(refused_for(trial + R"(,"high":0.001}]})"), Code::NoClamp);
}

}  // namespace fallwright
