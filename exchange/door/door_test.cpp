#include "exchange/door/door.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "exchange/door/export_book.h"

namespace fallwright::door {
namespace {

using Json = nlohmann::json;

const std::string book =
    "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"title\":\"Mill Lane: drain 1\"}\n"
    "{\"kind\":\"benchmark\",\"point\":\"=BM1\",\"level\":50}\n"
    "{\"kind\":\"place\",\"point\":\"=BM1\",\"e\":500010,\"n\":5300020}\n"
    "{\"kind\":\"instrument\",\"name\":\"L\",\"type\":\"optical-level\"}\n"
    "{\"kind\":\"line\",\"name\":\"D1\",\"use\":\"drain\",\"plan\":[[500000,5300000],[500030,5300040]],"
    "\"profile\":"
    "[{\"ch\":0,\"level\":49},{\"ch\":50,\"level\":48.5}],\"pipes\":[{\"from\":0,\"to\":50,\"bore\":0.15,"
    "\"wall\":0.005}]}\n"
    "{\"kind\":\"setup\",\"name\":\"S1\",\"instrument\":\"L\"}\n"
    "{\"kind\":\"reading\",\"point\":\"=BM1\",\"staff\":1.5,\"dist\":20}\n"
    "{\"kind\":\"reading\",\"line\":\"D1\",\"ch\":0,\"what\":\"laid\",\"staff\":2.501,\"dist\":20}\n"
    "{\"kind\":\"reading\",\"line\":\"D1\",\"ch\":50,\"what\":\"laid\",\"staff\":3.003,\"dist\":30}\n";
const std::string projection =
    "{\"kind\":\"rule\",\"name\":\"projection\",\"values\":{\"ellipsoid\":\"grs-80\",\"latitude\":0,"
    "\"longitude\":9,"
    "\"scale\":0.9996,\"false_east\":500000}}\n";

Json asked(const std::string& verb, const Json& options, const std::string& text = book) {
    return Json::parse(answer(Json({{"verb", verb}, {"book", text}, {"options", options}}).dump()));
}

TEST(Door, WhateverIsNotItsOwnGoesOnToTheDesk) {
    for (const char* request : {R"({"verb":"staff","options":{"reading":1.432}})", "{", "[]",
                                R"({"verb":"dance"})", "", R"({"book":"x","verb":"levels"})"})
        EXPECT_EQ(answer(request), desk::answer(request));
    const std::string levels = R"({"verb":"levels","options":{}})";
    const auto open = desk::open(book);
    EXPECT_EQ(door::run(**open, levels), desk::run(**open, levels));
}

TEST(Door, CsvOfEveryTable) {
    const Json levels = asked("export", {{"as", "csv"}});
    EXPECT_EQ(levels["name"], "mill-lane-drain-1-levels.csv");
    EXPECT_EQ(levels["type"], "text/csv");
    const std::string text = levels["text"];
    EXPECT_EQ(text.substr(0, text.find('\n')),
              "point,east (m),north (m),level (m),sd (m),times read,checked,held\r");
    EXPECT_NE(text.find("\r\n'=BM1,500010,5300020,50,0,1,yes,yes\r\n"), std::string::npos) << text;
    for (const char* table : {"stations", "falls", "readings"}) {
        const Json made = asked("export", {{"as", "csv"}, {"table", table}});
        ASSERT_TRUE(made.contains("text")) << made.dump();
        const std::string rows = made["text"];
        EXPECT_GT(std::count(rows.begin(), rows.end(), '\n'), 1) << table;
    }
    const Json setout =
        asked("export", {{"as", "csv"}, {"table", "setout"}, {"line", "D1"}, {"every", "10"}});
    ASSERT_TRUE(setout.contains("text")) << setout.dump();
    EXPECT_NE(setout["text"].get<std::string>().find("D1,"), std::string::npos);
}

TEST(Door, RefusalsSayWhatAndTheCure) {
    EXPECT_EQ(asked("export", {{"as", "pdf"}})["error"]["message"], "pdf is no format");
    EXPECT_EQ(asked("export", Json::object())["error"]["message"], "it is not said as what");
    EXPECT_EQ(asked("export", {{"as", "csv"}, {"table", "walls"}})["error"]["message"],
              "there is no table walls");
    EXPECT_EQ(asked("export", {{"as", "csv"}, {"table", "setout"}})["error"]["about"][0], "line");
    EXPECT_EQ(asked("export", {{"as", "csv"}, {"table", "setout"}, {"line", "X"}})["error"]["message"],
              "line X is not in the book");
    EXPECT_EQ(asked("export", {{"as", "geojson"}})["error"]["code"], "no-projection");
    EXPECT_EQ(asked("export", {{"as", "csv"}}, "no book")["error"]["code"], "not-a-book");
    EXPECT_EQ(Json::parse(answer(R"({"verb":"export","options":{"as":"csv"}})"))["error"]["message"],
              "verb export needs a book");
    EXPECT_EQ(asked("import", Json::object())["error"]["about"][0], "file");
}

TEST(Door, TheBookItselfByteForByte) {
    const Json made = asked("export", {{"as", "jsonl"}});
    EXPECT_EQ(made["text"], book);
    EXPECT_EQ(made["name"], "mill-lane-drain-1.book.jsonl");
    const auto open = desk::open(book);
    EXPECT_EQ(
        Json::parse(door::run(**open, R"({"verb":"export","options":{"as":"jsonl"}})"))["error"]["about"][0],
        "as");
}

// What was handed over as LandXML and taken back: lines, levels and pipes are the same.
TEST(Door, LandXmlThereAndBack) {
    const Json made = asked("export", {{"as", "landxml"}});
    ASSERT_TRUE(made.contains("text")) << made.dump();
    const Json back = Json::parse(
        answer(Json({{"verb", "import"}, {"options", {{"file", made["text"]}, {"name", "a.xml"}}}}).dump()));
    ASSERT_TRUE(back.contains("lines")) << back.dump();
    std::string again;
    for (const Json& line : back["lines"]) again += line.dump() + "\n";
    const Json levels = asked("levels", Json::object(), again);
    const Json before = asked("levels", Json::object());
    for (const Json& level : before["levels"]) {
        bool found = false;
        for (const Json& other : levels["levels"]) {
            if (other["point"] != level["point"]) continue;
            found = true;
            EXPECT_NEAR(other["level"].get<double>(), level["level"].get<double>(), 0.0001) << level.dump();
        }
        EXPECT_TRUE(found) << level.dump() << again;
    }
    const Json setout = asked("setout", {{"line", "D1"}, {"every", "10"}}, again);
    const Json first = asked("setout", {{"line", "D1"}, {"every", "10"}});
    ASSERT_TRUE(setout.contains("setout")) << setout.dump();
    ASSERT_EQ(setout["setout"][0]["rows"].size(), first["setout"][0]["rows"].size());
    for (std::size_t i = 0; i < first["setout"][0]["rows"].size(); ++i)
        EXPECT_EQ(setout["setout"][0]["rows"][i]["design"], first["setout"][0]["rows"][i]["design"]);
}

TEST(Door, GeoJsonThereAndBack) {
    const Json made = asked("export", {{"as", "geojson"}}, book + projection);
    ASSERT_TRUE(made.contains("text")) << made.dump();
    const std::string target = "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + projection;
    const Json back = asked("import", {{"file", made["text"]}}, target);
    ASSERT_TRUE(back.contains("lines")) << back.dump();
    bool placed = false;
    for (const Json& line : back["lines"]) {
        if (line["kind"] != "place" || line["point"] != "=BM1") continue;
        placed = true;
        EXPECT_NEAR(line["e"].get<double>(), 500010, 0.0001);
        EXPECT_NEAR(line["n"].get<double>(), 5300020, 0.0001);
    }
    EXPECT_TRUE(placed) << back.dump();
    EXPECT_EQ(asked("import", {{"file", made["text"]}}, book)["findings"][0]["code"], "no-projection");
}

TEST(Door, FilesSayWhatTheyAre) {
    const auto import = [](const std::string& file) {
        const Json made =
            Json::parse(answer(Json({{"verb", "import"}, {"options", {{"file", file}}}}).dump()));
        return made["findings"].empty() ? std::string() : made["findings"][0]["code"].get<std::string>();
    };
    EXPECT_EQ(import("<svg/>"), "import-xml");
    EXPECT_EQ(import("<?xml version='1.0' encoding='EBCDIC'?><LandXML/>"), "import-encoding");
    EXPECT_EQ(import(book), "import-json");
    EXPECT_EQ(import("{}"), "import-json");
    EXPECT_EQ(import("hello"), "import-no-header");
    EXPECT_EQ(import("point,bs,is,fs,rl\nBM,1,,,50\nA,,1.2,,49.8\n"), "");
}

TEST(Door, FileNames) {
    EXPECT_EQ(file_name("Nettlebank Lane, 2026 / 4", "levels", "csv"), "nettlebank-lane-2026-4-levels.csv");
    EXPECT_EQ(file_name("", "", "xml"), "book.xml");
    EXPECT_EQ(file_name("\xC3\x9C", "", "xml"), "book.xml");
    EXPECT_EQ(format_of("a/b.XML"), "landxml");
    EXPECT_EQ(format_of("a.book.jsonl"), "jsonl");
    EXPECT_EQ(format_of("levels"), "");
}

}  // namespace
}  // namespace fallwright::door
