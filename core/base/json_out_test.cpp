#include "base/json_out.h"

#include <gtest/gtest.h>

#include <limits>
#include <nlohmann/json.hpp>
#include <string>

namespace fallwright {

TEST(JsonOut, CommasStandBetweenMembersAndNowhereElse) {
    JsonOut out;
    out.begin_object();
    out.key("empty").begin_array().end_array();
    out.key("list").begin_array().integer(1).null().begin_object().end_object().boolean(true).end_array();
    out.text("word", "x").boolean("no", false).null("none");
    out.end_object();
    EXPECT_EQ(out.take(), R"({"empty":[],"list":[1,null,{},true],"word":"x","no":false,"none":null})");
}

TEST(JsonOut, NumbersFollowThePrintingRule) {
    JsonOut out;
    out.begin_array().number(1.23456789, 5).number(-0.000001, 5).figures(1234567, 6);
    out.number(std::numeric_limits<double>::quiet_NaN(), 5).end_array();
    EXPECT_EQ(out.take(), "[1.23457,0,1234570,null]");
}

TEST(JsonOut, ANameThatSomebodyGaveIsEscapedAndHasNoComma) {
    JsonOut out;
    out.begin_object()
        .integer("a", 1)
        .own_key("2\" \\ screed")
        .null()
        .own_key(std::string(100, 'x'))
        .integer(2);
    const std::string written = out.end_object().take();
    EXPECT_EQ(written, R"({"a":1,"2\" \\ screed":null,")" + std::string(100, 'x') + R"(":2})");
}

TEST(JsonOut, RawPiecesAreSeparatedToo) {
    JsonOut out;
    out.begin_array().raw("{}").raw("[1]").end_array();
    EXPECT_EQ(out.take(), "[{},[1]]");
}

TEST(JsonOut, EveryAsciiCharacterSurvivesAnotherParser) {
    std::string all;
    for (char c = 0; c < 127; ++c) all += c;
    all += "\x7f\xc3\xa9\xe2\x82\xac";
    std::string written;
    append_json_string(written, all);
    EXPECT_EQ(nlohmann::json::parse(written).get<std::string>(), all);
}

TEST(JsonOut, PiecesSentAwayMakeTheSameText) {
    const auto write = [](JsonOut& out) {
        out.begin_array();
        for (int i = 0; i < 300000; ++i) out.begin_object().integer("number", i).end_object();
        out.end_array();
    };
    JsonOut whole;
    write(whole);
    std::string sent;
    int pieces = 0;
    JsonOut in_pieces([&](std::string_view piece) {
        sent += piece;
        ++pieces;
    });
    write(in_pieces);
    sent += in_pieces.take();
    EXPECT_EQ(sent, whole.take());
    EXPECT_GT(pieces, 2);
}

}  // namespace fallwright
